// Why a plan has its days: little to read before a tap, a picture, and a round on another day with its chance.
import type { Page } from '@playwright/test';
import { expect, long, look, open, settled, test, told } from './served';

const most = 120;

/** What the screen shows of its text without a tap or a scroll. */
const inView = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const main = document.querySelector('main');
    if (!main) throw new Error('there is no screen');
    const walk = document.createTreeWalker(main, NodeFilter.SHOW_TEXT);
    const seen: string[] = [];
    while (walk.nextNode()) {
      const folded = walk.currentNode.parentElement?.closest('details:not([open])');
      if (folded && !walk.currentNode.parentElement?.closest('summary')) continue;
      const range = document.createRange();
      range.selectNodeContents(walk.currentNode);
      const { top, height } = range.getBoundingClientRect();
      if (height > 0 && top < window.innerHeight) seen.push(walk.currentNode.textContent ?? '');
    }
    return seen.join(' ');
  });

test('a plan opens with one course and its picture, and a round can be tried on another day', async ({
  page,
  served,
}, info) => {
  await open(page, served, 'plan/choose');
  await expect(page.getByRole('heading', { name: 'Recommended', exact: true })).toBeVisible(long);
  const picture = page.getByRole('img', { name: 'Why these days' });
  await expect(picture).toBeVisible(long);
  await settled(page);
  await expect(
    page.getByText(/^With checks from .+, and the course once more on a find, by .+:/),
  ).toBeVisible();
  await look(page, info, 'days-1-plan');
  const read = (await inView(page)).split(/\s+/).filter((word) => /\p{L}/u.test(word));
  expect(read.length, read.join(' ')).toBeLessThanOrEqual(most);

  // Every figure of the picture stands in the table.
  await page.getByText('What it shows, in figures').click();
  await expect(page.getByRole('row', { name: /^1: / })).toBeVisible();
  await expect(page.getByRole('row', { name: /^Egg / })).toBeVisible();

  await page.getByText('Try another day').click();
  const rounds = page.getByRole('group', { name: 'Try another day' }).getByRole('button');
  const last = (await rounds.count()) - 1;
  const before = await rounds.nth(last).getAttribute('aria-label');
  await rounds.nth(last).click();
  await page.getByRole('button', { name: 'A day later' }).click();
  await expect(rounds.nth(last)).not.toHaveAttribute('aria-label', before ?? '');
  const adopt = page.getByRole('button', { name: 'Adopt with these days' });
  await expect(adopt).toBeVisible(long);
  await expect(page.getByText(/^On the days of the plan: /)).toBeVisible();
  await look(page, info, 'days-2-moved');
  const wanted = await rounds.nth(last).getAttribute('aria-label');
  await adopt.click();
  await told(page, /The plan is adopted/);

  await open(page, served, 'plan/now');
  await expect(page.getByRole('img', { name: 'Why these days' })).toBeVisible(long);
  await settled(page);
  await page.getByText('Try another day').click();
  await expect(page.getByRole('button', { name: wanted ?? '', exact: true })).toBeVisible();
  await look(page, info, 'days-3-now');
  await open(page, served, 'print/plan');
  await expect(page.getByRole('img', { name: 'Why these days' })).toBeVisible(long);
});
