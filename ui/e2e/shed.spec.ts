// A shed that is awaited is asked for; a plan knows of what was seen a moment ago.
import { daysAgo, run } from './collections';
import { answerOf, expect, long, look, open, settled, test, told } from './served';

test('a plan is worked out as soon as the first mite is on record', async ({ page, served }) => {
  const { sightings } = await answerOf(page, served, 'collection');
  for (const { entry } of sightings) run(served.file, 'withdraw', String(entry), '--because', 'a speck');
  await open(page, served, 'plan/choose');
  await expect(page.getByText(/^Report a sighting first/)).toBeVisible();
  run(served.file, 'record', 'sighting', 'a-05', '2-10');
  await expect(page.getByRole('heading', { name: 'Recommended', exact: true })).toBeVisible(long);
  await expect(page.getByText(/^Report a sighting first/)).toHaveCount(0);
});

test('a newcomer nobody saw a mite on: what a look and what a spray would be worth', async ({
  page,
  served,
}, info) => {
  const { sightings, enclosures } = await answerOf(page, served, 'collection');
  for (const { entry } of sightings) run(served.file, 'withdraw', String(entry), '--because', 'a speck');
  const tub = enclosures.at(-1)?.enclosure ?? '';
  run(
    served.file,
    ...['record', 'arrival', 'nova', '--name', 'Nova', '--kind', 'corn snake', '--origin', 'a breeder'],
    ...['--enclosure', tub, '--quarantine', '--knowing'],
  );
  await open(page, served, 'animal/nova');
  await page.getByRole('link', { name: 'Plan without a find' }).click();
  await expect(page.getByRole('heading', { name: 'Before anything is treated' })).toBeVisible(long);
  await expect(page.getByText(/points to (the chance|it)/).first()).toBeVisible();
  await expect(page.getByRole('row', { name: /^Look at every animal today/ })).toBeVisible();
  await settled(page);
  await look(page, info, 'prevention');
});

test('a shed that should have come is asked for, and each answer counts', async ({ page, served }, info) => {
  const { day } = await answerOf(page, served, 'collection');
  const cloudy = daysAgo(10, day);
  run(served.file, 'record', 'shed', 'juno', 'cloudy', '--on', cloudy);
  await open(page, served, 'today');
  const asked = page.getByRole('region', { name: 'Has Juno shed?' });
  await expect(asked).toBeVisible();
  await look(page, info, 'shed-1-today');
  await asked.getByRole('button', { name: 'Still cloudy' }).click();
  await told(page, /^Juno: Cloudy\./);
  await expect(asked).toHaveCount(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(asked).toBeVisible();
  await asked.getByRole('button', { name: 'No longer cloudy, no shed seen' }).click();
  await expect(asked).toHaveCount(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(asked).toBeVisible();

  await open(page, served, 'plan/choose');
  await expect(page.getByRole('heading', { name: 'Recommended', exact: true })).toBeVisible(long);
  await page.getByText('Has Juno shed? It would change this plan').first().click();
  await page.getByText('Day by day, and who is left out').click();
  await expect(page.getByText(/^Every enclosure of: /).first()).toBeVisible();
  await settled(page);
  await look(page, info, 'shed-2-plan');
  await asked.getByLabel('Day of the shed').fill(daysAgo(11, day));
  await expect(asked.getByRole('button', { name: 'Yes, shed' })).toBeDisabled();
  await asked.getByLabel('Day of the shed').fill(daysAgo(2, day));
  await asked.getByRole('button', { name: 'Yes, shed' }).click();
  await told(page, /^Juno: Has shed\./);
  // The plan that is shown is one of the records as they are now.
  await expect(asked).toHaveCount(0, long);
});
