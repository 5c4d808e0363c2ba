// Spare tubs as a wish for a plan: asked for, compared, adopted, on the day's list and on paper.
import { expect, long, look, open, settled, test, told } from './served';

test('two spare tubs are planned with, worked through and printed', async ({ page, served }, info) => {
  await open(page, served, 'plan/choose');
  await expect(page.getByRole('heading', { name: 'Recommended', exact: true })).toBeVisible(long);
  await page.getByText('What if', { exact: true }).click();
  await page.getByLabel('Spare tubs').fill('2');
  await page.getByLabel('Spare tubs').press('Enter');
  const compared = page.getByRole('region', { name: 'Side by side' });
  await expect(compared.getByRole('row', { name: /2 spare tubs/ })).toBeVisible(long);
  await settled(page);
  await look(page, info, 'tubs-1-what-if');
  await page.getByRole('button', { name: 'Adopt: Recommended' }).click();
  await told(page, /The plan is adopted/);

  await open(page, served, 'today');
  await expect(page.getByText(/into a clean plain tub/).first()).toBeVisible();
  await expect(page.getByText(/^Wash the old tub of/).first()).toBeVisible();
  await look(page, info, 'tubs-2-today');

  await open(page, served, 'print/plan');
  await expect(page.getByRole('row', { name: /Into a clean plain tub/ }).first()).toBeVisible();
});
