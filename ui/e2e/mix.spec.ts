// Mixing with what is in the drawer: half spoons, and a round amount in place of an awkward one.
import { expect, look, open, test } from './served';

test.use({ collection: 'empty' });

test('an awkward amount is a tap away from a round one, and only its own steps are shown', async ({
  page,
  served,
}, info) => {
  await open(page, served, 'mix/make?amount=437&unit=mL&target=10');
  await page.getByLabel('What is in the bottle?').selectOption('plain');
  await page.getByRole('button', { name: 'The label says 10 mg/mL' }).click();
  await expect(page.getByText('Fill up with water to 437 mL.')).toBeVisible();
  // 0.437 mL lie between two marks that have to be counted out; 500 mL take 0.50 mL, told only with its own steps.
  const easier = page.locator('section', { hasText: 'Easier to measure: 500 mL' });
  await expect(easier).toContainText('63 mL more than you asked for');
  await expect(page.getByText('0.5 mL', { exact: true })).toHaveCount(0);
  await look(page, info, 'mix-round');
  await easier.getByRole('button', { name: 'Make 500 mL' }).click();
  await expect(page.getByText('Fill up with water to 500 mL.')).toBeVisible();
  await expect(page.getByRole('listitem').filter({ hasText: '0.5 mL with the 1 mL syringe' })).toBeVisible();
  await expect(easier).toHaveCount(0);
});

test('a half-teaspoon is drawn and told as one', async ({ page, served }, info) => {
  await open(page, served, 'mix/make?amount=5&unit=L&target=5');
  await page.getByLabel('What is in the bottle?').selectOption('plain');
  for (const size of ['1 mL', '3 mL', '5 mL', '10 mL', '20 mL'])
    await page.getByLabel(size, { exact: true }).uncheck();
  for (const spoon of ['5 mL teaspoon', '2.5 mL half-teaspoon']) await page.getByLabel(spoon).check();
  await page.getByRole('button', { name: 'The label says 10 mg/mL' }).click();
  // 5 L of 5 mg/L are 25 mg: 2.5 mL of 10 mg/mL.
  await expect(page.getByRole('listitem').filter({ hasText: '1 level 2.5 mL half-teaspoon' })).toBeVisible();
  const drawn = page.getByRole('img', { name: '1 level 2.5 mL half-teaspoon' });
  await expect(drawn).toContainText('half, level');
  await expect(drawn).toContainText('½');
  await look(page, info, 'mix-half-spoon');
});
