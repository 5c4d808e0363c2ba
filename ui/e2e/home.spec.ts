// The first screen: the one thing to do, how sure, and the rooms as they stand, arranged by finger and by key.
import type { Page } from '@playwright/test';
import { run } from './collections';
import { answerOf, countOf, expect, long, look, open, settled, test, told, type Served } from './served';
import { readQuickly } from './words-in-view';

test.use({ collection: 'adopted' });

const standOf = async (page: Page, served: Served, enclosure: string) =>
  (await answerOf(page, served, 'collection')).enclosures.find((one) => one.enclosure === enclosure)?.stand;
const inRack = (page: Page, rack: string) => page.getByRole('group', { name: `${rack} in Snake room` });

test('says the one thing to do and how sure it is, with the numbers a tap away', async ({
  page,
  served,
}, info) => {
  await page.clock.install();
  const asked: unknown[] = [];
  page.on('request', (request) => {
    if (request.method() === 'POST' && request.url().endsWith('/api/jobs'))
      asked.push((request.postDataJSON() as { kind: string }).kind);
  });
  await open(page, served);
  const { tasks } = await answerOf(page, served, 'worklist');
  const first = tasks.find((task) => task.kind !== 'hygiene' && task.state === 'open');
  const now = page.getByRole('region', { name: 'Do this now' });
  await expect(now).toContainText(first?.text ?? 'no task');
  await expect(page.getByRole('img', { name: /^0 of \d+ rounds done$/ })).toBeVisible();
  await settled(page);
  await readQuickly(page, info, 'home');
  await look(page, info, 'home-1');
  // In words first; the numbers stand behind a tap, and are those of the program.
  const label = page.getByText('Chance that no mite is left today', { exact: true });
  await expect(label).toBeHidden();
  await page.getByText('The numbers', { exact: true }).click();
  await expect(label).toBeVisible(long);
  // The situation was read again for its chances: whoever waits is asked nothing a second time.
  await page.clock.fastForward('01:00');
  await page.evaluate(() => fetch('/api/status').then((answer) => answer.text()));
  expect(asked.sort()).toEqual(['clear', 'rescore']);
  await now.getByRole('link', { name: 'One tub at a time' }).click();
  await expect(page.locator('main[data-place="#/tub"]')).toBeVisible();
});

test.describe('with one tub', () => {
  test.use({ collection: 'empty' });
  test('with nothing left of today it says when and what comes next', async ({ page, served }, info) => {
    const place = ['--temperature', '28 C', '--humidity', '55', '--floor-cm2'];
    run(served.file, 'record', 'room', 'den', ...place, '90000');
    run(served.file, 'record', 'enclosure', 'tub', '--room', 'den', ...place, '3000');
    const kind = ['--kind', 'corn snake', '--enclosure', 'tub', '--no-quarantine'];
    run(served.file, 'record', 'arrival', 'moss', '--name', 'Moss', ...kind);
    run(served.file, 'record', 'weight', 'moss', '620 g');
    run(served.file, 'record', 'sighting', 'tub', '2-10');
    run(served.file, 'plan', '--draws', '16', '--adopt', 'recommended');
    for (let again = true; again;) {
      const { tasks } = await answerOf(page, served, 'worklist');
      const task = tasks.find((one) => one.kind !== 'hygiene' && one.state === 'open');
      again = task !== undefined;
      if (task) run(served.file, 'skip', task.key, '--because', 'a test');
    }
    await open(page, served);
    await expect(page.getByRole('heading', { name: /^Nothing until / })).toBeVisible();
    const { next } = await answerOf(page, served, 'situation');
    expect(next.length).toBeGreaterThan(0);
    await expect(page.locator('.foremost').getByRole('listitem')).toHaveCount(next.length);
    await look(page, info, 'home-2-nothing');
  });
});

test('a tub is put in its place by tap, by key and by drag, and back', async ({ page, served }, info) => {
  run(served.file, 'record', 'stand', 'a-01', '--rack', 'Door', '--level', '1', '--position', '1');
  await open(page, served);
  await page.getByRole('button', { name: 'Arrange', exact: true }).click();

  await page.getByRole('button', { name: 'Take Tub A 02', exact: true }).click();
  await page.getByRole('button', { name: 'Free: Door, level 1, position 2' }).click();
  await told(page, /^Tub A 02: Door, level 1, position 2\./);
  expect(await standOf(page, served, 'a-02')).toEqual({ rack: 'Door', level: 1, position: 2 });

  // The second changes places with the first, by keys alone.
  const second = page.getByRole('button', { name: 'Take Tub A 02, Door, level 1, position 2' });
  await second.focus();
  await page.keyboard.press('Enter');
  await expect(second).toHaveAttribute('aria-pressed', 'true');
  await page.keyboard.press('ArrowLeft');
  await expect(page.getByText('Tub A 02 to: Door, level 1, position 1')).toBeVisible();
  await page.keyboard.press('Enter');
  await told(page, /^Tub A 02: Door, level 1, position 1\./);
  expect(await standOf(page, served, 'a-01')).toEqual({ rack: 'Door', level: 1, position: 2 });
  await expect(page.getByRole('button', { name: 'Take Tub A 02, Door, level 1, position 1' })).toBeFocused();
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect(second).toBeVisible();
  expect(await standOf(page, served, 'a-01')).toEqual({ rack: 'Door', level: 1, position: 1 });

  const third = page.getByRole('button', { name: 'Take Tub A 03', exact: true });
  const spot = page.getByRole('button', { name: 'Free: Door, level 2, position 1' });
  await third.scrollIntoViewIfNeeded();
  const [from, to] = [await third.boundingBox(), await spot.boundingBox()];
  if (!from || !to) throw new Error('nothing to drag');
  await page.mouse.move(from.x + from.width / 2, from.y + from.height / 2);
  await page.mouse.down();
  await page.mouse.move(to.x + to.width / 2, to.y + to.height / 2, { steps: 8 });
  await page.mouse.up();
  await told(page, /^Tub A 03: Door, level 2, position 1\./);
  await look(page, info, 'home-3-arranging');
  expect(await countOf(page, served, 'enclosure-stands')).toBe(5);

  await page.getByRole('button', { name: 'Done arranging' }).click();
  const tub = inRack(page, 'Door').getByRole('button', { name: /^Tub A 03, / });
  await tub.click();
  await expect(page.getByRole('dialog', { name: 'Tub A 03' })).toBeVisible();
  await page.getByRole('link', { name: 'Open this tub' }).click();
  await expect(page.getByRole('heading', { name: 'Tub A 03', level: 1 })).toBeVisible();
});
