// Why a plan has its days: little to read before a tap, a picture, and a round on another day with its chance.
import { expect, long, look, open, settled, test, told } from './served';
import { readQuickly } from './words-in-view';

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
  await readQuickly(page, info, 'a plan');

  // Every figure of the picture stands in the table.
  await page.getByText('What it shows, in figures').click();
  await expect(page.getByRole('row', { name: /^1: / })).toBeVisible();
  await expect(page.getByRole('row', { name: /^Egg / })).toBeVisible();

  // What each round buys is worked out once it is looked at.
  await page.getByText('Other plans', { exact: true }).click();
  await expect(page.getByRole('img', { name: /What each round buys/ })).toBeVisible(long);

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
