// A week away: what was missed is said first, and made up in one of two ways. A check is answered.
import type { Page } from '@playwright/test';
import { answerOf, countOf, expect, long, look, open, settled, test, told, type Served } from './served';

test.use({ collection: 'late' });

const late = (page: Page) => page.getByRole('region', { name: 'Late' });
const dish = /Tub A 02: no water dish since .+, 6 days/;

/** The checks on record of an enclosure, oldest first. */
async function checksOf(
  page: Page,
  served: Served,
  enclosure: string,
): Promise<{ count: string; where: string | null }[]> {
  const { entries } = await answerOf(page, served, 'history', { enclosure });
  return entries.flatMap((entry) => (entry.kind === 'checked' ? [entry.fact] : []));
}

test('what is late comes first, with its chances, and the rest is moved or not', async ({
  page,
  served,
}, info) => {
  await open(page, served);
  await expect(page.getByRole('alert').getByText(dish)).toBeVisible();
  await expect(late(page).getByText(/^Round 1 of \d+, planned for .+, was missed\.$/)).toBeVisible();
  await settled(page);
  await look(page, info, 'late-1-situation');
  await late(page).getByRole('link', { name: 'Open the worklist' }).click();
  await expect(
    late(page).getByText('The chances are being worked out').or(late(page).getByText('If it is done today')),
  ).toBeVisible();
  await expect(late(page).getByText(/^As it stood on /)).toBeVisible(long);
  await expect(late(page).getByText('If it is done today')).toBeVisible();
  await expect(late(page).getByText('If the rest is moved')).toBeVisible();
  await expect(
    page.getByRole('button', { name: /^(Done|None seen|Saw some): / }).first(),
  ).toHaveAccessibleName(/^Done: Put the water dish back into Tub A 02/);
  await look(page, info, 'late-2-today');
  const adopted = await countOf(page, served, 'plan-adopted');
  await late(page).getByRole('button', { name: 'Move the rest' }).click();
  await told(page, /the rest moves with it/);
  await expect(late(page).getByText(/^Round 1 of/)).toHaveCount(0);
  expect(await countOf(page, served, 'plan-adopted')).toBe(adopted + 1);
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect(late(page).getByText(/^Round 1 of/)).toBeVisible();
  await late(page).getByRole('button', { name: 'Do it today' }).click();
  await told(page, /the rest stays/);
  await expect(late(page).getByText(/^Round 1 of/)).toHaveCount(0);
  await page.getByRole('button', { name: /^Done: Put the water dish back into Tub A 02/ }).click();
  await expect(late(page).getByText(dish)).toHaveCount(0);
});

test('a check has no tick: it is answered, also without a connection', async ({ page, served }, info) => {
  await open(page, served, 'today');
  const none = page.getByRole('button', { name: /^None seen: Look for mites in Tub A 01/ });
  await expect(none).toBeVisible();
  await expect(page.getByRole('button', { name: /^Done: Look for mites/ })).toHaveCount(0);
  const before = (await checksOf(page, served, 'a-01')).length;
  await page.route('**/api/tick', (route) => route.abort());
  await none.focus();
  await page.keyboard.press('Enter');
  await told(page, /Tub A 01: looked at, none seen/);
  await expect(page.getByText(/waits? to be sent/).first()).toBeVisible();
  expect((await checksOf(page, served, 'a-01')).length).toBe(before);
  await page.unrouteAll({ behavior: 'wait' });
  await expect.poll(async () => (await checksOf(page, served, 'a-01')).length).toBe(before + 1);
  expect((await checksOf(page, served, 'a-01')).at(-1)).toMatchObject({ count: 'none', where: null });

  const seen = (await checksOf(page, served, 'a-03')).length;
  await page.getByRole('button', { name: /^Saw some: Look for mites in Tub A 03/ }).click();
  const save = page.getByRole('button', { name: 'Put on record' });
  await expect(save).toBeDisabled();
  await page.getByRole('radio', { name: '2 to 10' }).check();
  await page.getByRole('radio', { name: 'On the paper' }).check();
  await look(page, info, 'late-3-saw-some');
  await save.click();
  await told(page, /Tub A 03: mites on record/);
  await expect.poll(async () => (await checksOf(page, served, 'a-03')).length).toBe(seen + 1);
  expect((await checksOf(page, served, 'a-03')).at(-1)).toMatchObject({ count: '2-10', where: 'on-paper' });
  await open(page, served);
  await expect(page.getByRole('heading', { name: 'Mites last seen today' })).toBeVisible();
});

test('the printed list has a box for each answer', async ({ page, served }, info) => {
  await page.goto(`${served.address}/#/print/worklist`);
  await expect(page.getByText('None seen').first()).toBeVisible();
  await expect(page.getByText('Saw some').first()).toBeVisible();
  await look(page, info, 'late-4-print');
});
