// Meals: recorded in a few fields, again at a tap, told as a chart, and kept apart from treatments.
import { daysAgo, run } from './collections';
import { answerOf, expect, look, open, test, told } from './served';

test('a meal is recorded, offered again at a tap, and bars what would disturb it', async ({
  page,
  served,
}, info) => {
  const { day } = await answerOf(page, served, 'collection');
  run(served.file, 'record', 'meal', 'juno', 'regurgitated', '--on', daysAgo(40, day));
  run(served.file, 'record', 'weight', 'juno', '1000 g', '--on', daysAgo(1, day));
  await open(page, served, 'animal/juno');
  const meals = page.locator('section', { has: page.getByRole('heading', { name: 'Meals', exact: true }) });
  await meals.getByText('A meal', { exact: true }).click();
  await expect(meals.getByRole('button', { name: 'Record the meal' })).toBeDisabled();
  await meals.getByRole('radio', { name: 'Eaten' }).check();
  await meals.getByLabel('Prey', { exact: true }).fill('Adult mouse');
  await meals.getByLabel('How many').fill('2');
  await meals.getByLabel('All together, g').fill('60');
  await meals.getByRole('button', { name: 'Record the meal' }).click();
  await told(page, /^The meal is on record\./);
  await expect(meals.getByRole('button', { name: 'Ate: Adult mouse × 2, 60 g' })).toBeVisible();
  await expect(page.getByRole('button', { name: /^Soak in lukewarm water.*Wait/ })).toBeVisible();
  await meals.getByRole('button', { name: 'Refused it' }).click();
  await expect(
    meals.getByRole('img', { name: /^Weight and meals of Juno.*1 eaten, 1 refused, 1 brought up again\.$/ }),
  ).toBeVisible();
  await meals.getByText('As a table').click();
  await expect(meals.getByRole('row', { name: /Eaten: Adult mouse × 2, 60 g$/ })).toBeVisible();
  await look(page, info, 'meals-1-animal');
});

test('prey treated for mites of its own asks first', async ({ page, served }, info) => {
  await open(page, served, 'animal/juno');
  await page.getByText('A meal', { exact: true }).click();
  await page.getByRole('radio', { name: 'Eaten' }).check();
  await page.getByLabel('It was treated for mites of its own').check();
  await page.getByRole('button', { name: 'Record the meal' }).click();
  await expect(page.getByRole('dialog', { name: 'Never feed this' })).toBeVisible();
  await look(page, info, 'meals-2-treated');
  await page.getByRole('button', { name: 'Do not record it' }).click();
  expect(
    (await answerOf(page, served, 'history', { animal: 'juno' })).entries.map((one) => one.kind),
  ).not.toContain('meal');
});

test.describe('with a plan', () => {
  test.use({ collection: 'adopted' });
  test('the day says whose meal to hold, and the animal’s page too', async ({ page, served }, info) => {
    await open(page, served, 'today');
    await expect(page.getByText(/^No meal for .* before /).first()).toBeVisible();
    await look(page, info, 'meals-3-today');
    const { notes } = await answerOf(page, served, 'worklist');
    await open(page, served, `animal/${notes[0]?.animals[0] ?? ''}`);
    await expect(page.getByText(/^No meal for .* before /).first()).toBeVisible();
  });
});
