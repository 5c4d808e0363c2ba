// Several bottles of stock: none is chosen for the keeper, and the one chosen is told wherever it is measured.
import { expect, look, open, test, told } from './served';
import type { Page } from '@playwright/test';

test.use({ collection: 'empty' });

const steps = (page: Page, text: string) => page.getByRole('listitem').filter({ hasText: text });

/** Names what was typed of a label, so that it is on record. */
async function keepAs(page: Page, name: string): Promise<void> {
  await page.getByLabel('Name it, and write the name on it').fill(name);
  await page.getByRole('button', { name: 'Put it on record' }).click();
  await told(page, new RegExp(`^.*${name}`));
}

test('two bottles of different strength are never mixed up', async ({ page, served }, info) => {
  await open(page, served, 'mix/make?amount=1&unit=L&target=10');
  await page.getByLabel('What is in the bottle?').selectOption('plain');
  await page.getByRole('button', { name: 'The label says 10 mg/mL' }).click();
  await expect(page.getByText('Fill up with water to 1 L.')).toBeVisible();
  const bench = page.getByText('Stock and tools at hand: ivermectin 10 mg/mL');
  await bench.click();
  await keepAs(page, 'iver-1');
  // What was opened stays open while the bottle becomes the one that is mixed from.
  await expect(page.getByRole('button', { name: /^iver-1: / })).toHaveAttribute('aria-pressed', 'true');
  await page.getByRole('button', { name: 'Another one: read its label' }).click();
  await expect(page.getByText('Fill up with water to 1 L.')).toBeHidden();
  await page.getByLabel('Strength of the ivermectin stock, as on its label').fill('18.7');
  await page.getByLabel('What is in the bottle?').selectOption('plain');
  await page.getByRole('button', { name: 'The label says 18.7 mg/mL' }).click();
  await page.getByText('Stock and tools at hand: ivermectin 18.7 mg/mL').click();
  await keepAs(page, 'iver-2');
  // 10 mg are 0.535 mL of 18.7 mg/mL and 1 mL of 10 mg/mL.
  await expect(steps(page, '0.53 mL with the 1 mL syringe')).toContainText('iver-2');
  await look(page, info, 'mix-bottles');

  // Another telephone, or this one with nothing kept: the bottles are on record, and none is taken for the other.
  await page.evaluate(() => localStorage.clear());
  await page.reload();
  await expect(page.getByRole('heading', { name: 'Which bottle do you hold?' })).toBeVisible();
  await expect(page.getByRole('button', { pressed: true })).toHaveCount(0);
  await expect(page.getByText('Fill up with water')).toHaveCount(0);
  await look(page, info, 'mix-which-bottle');
  await page.getByRole('button', { name: /^iver-1: 10 mg/ }).click();
  await expect(steps(page, '1 mL with the 1 mL syringe')).toContainText('iver-1');

  // The one it was mixed from is empty: it is asked for again; taken back, it is there as before.
  await page.getByText('Stock and tools at hand: iver-1, ivermectin 10 mg/mL').click();
  await page.getByRole('button', { name: 'iver-1 is empty' }).click();
  await expect(page.getByText('Fill up with water')).toHaveCount(0);
  await expect(page.getByRole('button', { name: /^iver-1: / })).toHaveCount(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByRole('button', { name: /^iver-1: / })).toBeVisible();
  await expect(page.getByText('Fill up with water')).toHaveCount(0);
});
