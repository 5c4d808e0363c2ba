// From an empty collection to animals on record: typed, and from a table.
import type { Page } from '@playwright/test';
import { answerOf, expect, look, open, test, told, type Served } from './served';

test.use({ collection: 'empty' });

const names = ['Ada', 'Bruno', 'Cleo', 'Dora', 'Ezra', 'Fern', 'Gus', 'Hilda', 'Ivo', 'Juno'];

test('ten animals from nothing, then a sighting', async ({ page, served }, info) => {
  await open(page, served);
  await expect(page.getByRole('heading', { name: 'Begin with your animals' })).toBeVisible();
  await look(page, info, 'start-1-empty');
  await page.getByRole('link', { name: 'Add rooms, tubs and animals' }).click();
  await page.getByLabel('Kind, line 1', { exact: true }).fill('ball python');
  for (const [index, name] of names.entries())
    await page.getByLabel(`Name, line ${index + 1}`, { exact: true }).fill(name);
  await page.getByLabel('Weight, g, line 1', { exact: true }).fill('1620');
  await page.getByLabel('Weight, g, line 2', { exact: true }).fill('about 900');
  await page.getByRole('button', { name: 'Add 10 animals' }).click();
  await expect(page.getByLabel('Weight, g, line 2', { exact: true })).toBeFocused();
  await expect(page.getByText('“about 900” is not a number')).toBeVisible();
  await page.getByLabel('Weight, g, line 2', { exact: true }).fill('900 g');
  await look(page, info, 'start-2-add');
  await page.getByRole('button', { name: 'Add 10 animals' }).click();
  await expect(page.getByRole('heading', { name: 'Situation' })).toBeVisible();
  await expect(page.getByText('10 enclosures')).toBeVisible();
  await page.getByRole('button', { name: 'Skip this' }).click();
  await open(page, served, 'collection/enclosures');
  await page.getByLabel('Choose all shown').check();
  await page.getByRole('button', { name: 'Record substrate' }).click();
  await told(page, /: .*and 7 more\./);
  await expect(page.getByRole('cell', { name: 'Paper' })).toHaveCount(10);
  await page.getByLabel('By day, °C').fill('31');
  await page.getByRole('button', { name: 'Correct the climate of those chosen' }).click();
  await expect(page.getByRole('cell', { name: '31 °C, 26 °C, 55 %' })).toHaveCount(10);

  await open(page, served);
  await page.getByRole('link', { name: 'Report a sighting' }).click();
  await page.getByRole('button', { name: /Juno/ }).click();
  await page.getByRole('button', { name: 'One', exact: true }).click();
  await page.getByRole('button', { name: 'On the animal' }).click();
  await expect(page.getByRole('heading', { name: 'Tonight', exact: true })).toBeVisible();

  await open(page, served, 'enclosure/tub-10');
  await page
    .getByRole('button', { name: /^Withdraw entry/ })
    .first()
    .click();
  await page.getByLabel('Why is it withdrawn?').fill('a speck of dirt');
  await page.getByRole('button', { name: 'Withdraw', exact: true }).last().click();
  await told(page, /The entry is withdrawn\./);
  await open(page, served);
  await expect(page.getByRole('heading', { name: 'No mites on record' })).toBeVisible();
});

test('a table is matched, looked at, and added as a whole', async ({ page, served }, info) => {
  await open(page, served, 'collection/import');
  const rows = [
    'Snake,Species,Tub,Rack,Grams',
    'Ada,ball python,A1,Rack 1,1620',
    'Bruno,corn snake,A2,Rack 1,heavy',
    'Cleo,,A3,Rack 2,',
  ];
  await page.getByLabel(/Or paste the rows here/).fill(rows.join('\n'));
  await expect(page.getByText('2 rooms, 3 enclosures, 3 animals, 1 weight')).toBeVisible();
  await expect(page.getByText('“heavy” is not a number')).toBeVisible();
  await page.getByLabel('Weight', { exact: true }).selectOption({ label: 'Leave out' });
  await expect(page.getByText('2 rooms, 3 enclosures, 3 animals, 0 weights')).toBeVisible();
  await expect(page.getByText('The server has checked all of it')).toBeVisible();
  await look(page, info, 'start-3-import');
  await page.getByRole('button', { name: 'Add all of it' }).click();
  await expect(page.getByRole('link', { name: 'Bruno' })).toBeVisible();
});

/** Kinds on record, by animal. */
async function kindsOf(page: Page, served: Served): Promise<Record<string, string | null>> {
  const { animals } = await answerOf(page, served, 'collection');
  return Object.fromEntries(animals.map(({ name, taxon }) => [name, taxon]));
}

test('short names of kinds are understood as they are typed, and asked about where they may be several', async ({
  page,
  served,
}, info) => {
  await open(page, served, 'collection/add');
  const kind = (line: number) => page.getByLabel(`Kind, line ${line}`, { exact: true });
  for (const [index, name] of ['Ada', 'Bruno', 'Cleo', 'Dora'].entries())
    await page.getByLabel(`Name, line ${index + 1}`, { exact: true }).fill(name);
  await kind(1).fill('ball');
  await kind(1).blur();
  await expect(kind(1)).toHaveValue('ball python');
  await expect(page.getByText('“ball” is understood as ball python (Python regius).')).toBeVisible();
  await kind(2).fill('milk');
  await kind(3).fill('corn');
  await kind(4).fill('king');
  await page.getByRole('button', { name: 'Add 4 animals' }).click();
  await expect(page.getByRole('alert').filter({ hasText: 'Say which kind “milk”, “king” is' })).toBeVisible();
  await expect(page.getByText('“milk” may be several kinds. Which is it?')).toBeVisible();
  await look(page, info, 'start-4-which-kind');
  expect(await kindsOf(page, served)).toEqual({});
  await page.getByRole('button', { name: 'Honduran milk snake' }).click();
  await expect(kind(2)).toHaveValue('Honduran milk snake');
  await page.getByRole('button', { name: 'I do not know which' }).click();
  await page.getByRole('button', { name: 'Add 4 animals' }).click();
  await told(page, /4 animals are on record\./);
  expect(await kindsOf(page, served)).toEqual({
    Ada: 'ball python',
    Bruno: 'Honduran milk snake',
    Cleo: 'corn snake',
    Dora: 'king',
  });
});

test('short names in a table are shown as understood, and one of several kinds is asked about once', async ({
  page,
  served,
}, info) => {
  await open(page, served, 'collection/import');
  const rows = ['Snake,Species,Tub', 'Ada,royal,A1', 'Bruno,king,A2', 'Cleo,King,A3', 'Dora,moon snake,A4'];
  await page.getByLabel(/Or paste the rows here/).fill(rows.join('\n'));
  await expect(page.getByText('“royal”, 1 animal: ball python (Python regius)')).toBeVisible();
  await expect(page.getByText('Not known to Mitefall: moon snake')).toBeVisible();
  const question = page.getByRole('group', { name: /“king”, 2 animals: it may be several kinds/ });
  await expect(question).toHaveCount(1);
  await expect(page.getByText('The server has checked all of it')).toHaveCount(0);
  await expect(page.getByRole('button', { name: 'Add all of it' })).toBeDisabled();
  await question.getByLabel(/California kingsnake/).check();
  await expect(page.getByText('The server has checked all of it')).toBeVisible();
  await look(page, info, 'start-5-import-kinds');
  await page.getByRole('button', { name: 'Add all of it' }).click();
  await expect(page.getByRole('link', { name: 'Bruno' })).toBeVisible();
  expect(await kindsOf(page, served)).toEqual({
    Ada: 'ball python',
    Bruno: 'California kingsnake',
    Cleo: 'California kingsnake',
    Dora: 'moon snake',
  });
});
