// The bench: nothing calm beside a strength that may not be given, and one answer to one question.
import { daysAgo } from './collections';
import { expect, look, open, test } from './served';
import type { Page } from '@playwright/test';

async function tellTheStock(page: Page): Promise<void> {
  await page.getByLabel('What is in the bottle?').selectOption('plain');
  await page.getByRole('button', { name: 'The label says 10 mg/mL' }).click();
}

test('a strength that may not be given shows no steps before its stop is read', async ({
  page,
  served,
}, info) => {
  await open(page, served, 'mix');
  await tellTheStock(page);
  const fill = page.getByText(/^Fill up with water to/);
  const record = page.getByRole('button', { name: 'Put the batch on record' });
  await expect(fill).toBeVisible();
  await page.getByLabel('Strength wanted').fill('200');
  const stop = page.getByRole('alert').filter({ hasText: 'Stop: read this first' });
  await expect(stop).toContainText('20 times the strongest');
  await expect(fill).toBeHidden();
  await expect(page.getByText('Unrounded values')).toBeHidden();
  await expect(record).toBeHidden();
  await page.getByRole('button', { name: 'Show 27 more' }).click();
  await expect(page.getByRole('cell', { name: 'Allowed', exact: true })).toHaveCount(0);
  await look(page, info, 'bench-stop');
  await page.getByRole('button', { name: 'I have read this: show the steps' }).click();
  await expect(fill).toBeVisible();
  await expect(page.locator('section', { has: fill })).toBeFocused();
  await expect(stop).toBeVisible();
  const [above, below] = await Promise.all([stop.boundingBox(), fill.boundingBox()]);
  expect(above?.y ?? 0).toBeLessThan(below?.y ?? 0);
  // Another strength has a stop of its own.
  await page.getByLabel('Strength wanted').fill('100');
  await expect(stop).toContainText('10 times the strongest');
  await expect(fill).toBeHidden();
  await page.getByLabel('Strength wanted').fill('1000');
  await expect(page.getByRole('alert')).toContainText('beyond any practice known');
  await expect(fill).toBeHidden();
});

test('one mix is told one thing: not a veterinarian and allowed at once', async ({ page, served }, info) => {
  await open(page, served, 'mix/strength');
  await tellTheStock(page);
  await page.getByLabel('Stock that went in', { exact: true }).fill('1');
  const warned = page.getByText(/without a veterinarian/);
  const allowed = page.getByRole('cell', { name: 'Allowed', exact: true });
  await expect(warned.first()).toBeVisible();
  await page.getByRole('button', { name: 'Show 27 more' }).click();
  await expect(page.getByRole('rowheader')).toHaveCount(39);
  await expect(allowed).toHaveCount(0);
  // 1 mL may be 1.5: 15.8 mg/L in a jug 5 % short. 1,000 (1.58 - 1) / 0.95 = 609 mL of water, rounded up to two digits.
  const water = page.getByText('Add 610 mL of water to all of it.');
  await expect(water).toBeVisible();
  await look(page, info, 'bench-inverse');
  // A tenfold mistake with the syringe: no water is told, it is mixed anew.
  await page.getByLabel('Stock that went in', { exact: true }).fill('10');
  await expect(page.getByRole('heading', { name: 'Mix it anew' })).toBeVisible();
  await expect(water).toHaveCount(0);
  await look(page, info, 'bench-anew');
  // A litre is a bottle filled to its line: measured closely, the stock alone decides.
  await page.getByLabel('Stock that went in', { exact: true }).fill('0.90');
  await expect(allowed.first()).toBeVisible();
  await expect(warned).toHaveCount(0);
  await expect(water).toHaveCount(0);
  // What was opened stays open, whatever is typed.
  await expect(page.getByRole('rowheader')).toHaveCount(39);
});

test('the summary for a veterinarian has what was sprayed around the animal', async ({
  page,
  served,
}, info) => {
  const day = daysAgo(0);
  const fact = {
    kind: 'treated',
    body: { enclosure: 'a-01', animals: [], method: 'spray-bedding', strength_mg_per_l: 10 },
  };
  const done = await page.request.post(`${served.address}/api/record`, {
    data: { facts: [{ ...fact, day }], request: 'a-spray-of-the-bedding' },
  });
  expect(done.ok()).toBe(true);
  await open(page, served, 'print/vet/ada');
  await expect(page.getByText(/Tub A 01, around it/)).toContainText('10 mg/L');
  await look(page, info, 'vet-around');
});
