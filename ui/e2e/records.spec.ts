// What carried mites, what else lives in a room, and an animal that leaves: recorded as a keeper does it.
import { join } from 'node:path';
import { screens } from './collections';
import { answerOf, expect, look, open, test, told } from './served';

test('a thing that went elsewhere and hands in their order', async ({ page, served }) => {
  await open(page, served, 'tonight');
  await page.getByRole('link', { name: 'Something was used there and then elsewhere' }).first().click();
  await page.getByText('Water bowl', { exact: true }).click();
  await page.getByRole('searchbox', { name: 'Find an enclosure' }).fill('B 06');
  await page.getByRole('button', { name: /^Tub B 06/ }).click();
  await page.getByRole('button', { name: 'Record what went there' }).click();
  await told(page, /What went from one to the other is on record\./);

  await page.getByRole('link', { name: 'Back to tonight' }).click();
  await page.getByRole('link', { name: 'Somebody was handled after it' }).first().click();
  await page.getByRole('searchbox', { name: 'Find an animal to add' }).fill('Ada');
  await page.getByRole('button', { name: 'Add Ada' }).click();
  await page.getByRole('button', { name: 'Ada: held earlier' }).click();
  await page.getByRole('button', { name: 'Record who was handled' }).click();
  await told(page, /The handling of \d+ animals is on record/);
});

test('a show is recorded, and the day begins with clean clothes', async ({ page, served }, info) => {
  await open(page, served, 'more');
  await page.getByRole('link', { name: 'Contact with animals elsewhere' }).click();
  await page.getByText('A show or fair', { exact: true }).click();
  await page.getByLabel('Snake room').check();
  await look(page, info, 'outside');
  await page.getByRole('button', { name: 'Record the contact' }).click();
  await told(page, /^The contact is on record\./);
  await page.getByRole('link', { name: 'Today’s list' }).click();
  await expect(page.getByText(/^After a show \(.*clothes and shoes off/)).toBeVisible();
  await expect(page.getByText(/^Nobody who was there goes to the snakes before /)).toBeVisible();
});

test('a room: other life, doors, climate', async ({ page, served }) => {
  await open(page, served);
  await page.getByRole('link', { name: 'Snake room', exact: true }).click();
  await page.getByLabel('Fish').check();
  await page.getByRole('button', { name: 'Record other life' }).click();
  await expect(page.getByRole('button', { name: 'Fish moved out' })).toBeVisible();
  await page.getByLabel('Study').check();
  await page.getByRole('button', { name: 'Record the doors' }).click();
  await told(page, /The room is put right\./);
  await expect(page.getByLabel('Study')).toBeChecked();
});

test('an odd weight is asked about; an animal that left stays readable', async ({ page, served }) => {
  await open(page, served, 'animal/ada');
  await page.getByText('Weigh', { exact: true }).click();
  await page.getByLabel('Weight, g').fill('1,62');
  await page.getByRole('button', { name: 'Record weight' }).click();
  await expect(page.getByText(/^Ada weighed .* Really 1\.62 g now\?$/)).toBeVisible();
  await page.getByRole('button', { name: 'No, change it' }).click();
  await page.getByLabel('Weight, g').fill('1,620');
  await page.getByLabel('Weight, g').blur();
  await expect(page.getByText('Write 1620 or 1.62.')).toBeVisible();
  await page.getByText('It left the collection', { exact: true }).click();
  await expect(page.getByRole('button', { name: 'Record that it left' })).toBeDisabled();
  await page.getByLabel('Why').selectOption({ label: 'Sold' });
  await page.getByRole('button', { name: 'Record that it left' }).click();
  await page.getByRole('button', { name: 'Yes, it left' }).click();
  await page.getByRole('button', { name: 'Record it all the same' }).click(); // mites were near
  await expect(page.getByText(/^Left on .*: sold$/)).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Ada', exact: true })).toBeVisible();
});

test('a sale from where mites were seen says what it does and what to tell', async ({
  page,
  served,
}, info) => {
  const { sightings, animals } = await answerOf(page, served, 'collection');
  const sold = animals.find((one) => one.enclosure === sightings.at(-1)?.enclosure)?.animal ?? '';
  await open(page, served, `animal/${sold}`);
  await page.getByText('It left the collection', { exact: true }).click();
  const sell = async (): Promise<void> => {
    await page.getByLabel('Why').selectOption({ label: 'Sold' });
    await page.getByRole('button', { name: 'Record that it left' }).click();
    await page.getByRole('button', { name: 'Yes, it left' }).click();
  };
  await sell();
  const sheet = page.getByRole('dialog', { name: 'Mites could go along' });
  await expect(sheet.getByRole('heading', { name: 'Tell whoever takes it' })).toBeVisible();
  await expect(sheet.getByText(/^Chance that no mite is left: .* after it\.$/)).toBeVisible({
    timeout: 120_000,
  });
  await sheet.getByRole('button', { name: 'Do not record it' }).click();
  await expect(page.getByText(/^Left on .*: sold$/)).toHaveCount(0);
  await sell();
  const opened = page.waitForEvent('popup');
  await sheet.getByRole('link', { name: 'Print this' }).click();
  const paper = await opened;
  await expect(paper.getByRole('heading', { name: /: for whoever takes it$/ })).toBeVisible();
  await expect(paper.getByRole('listitem').filter({ hasText: 'Wash your hands' })).toContainText('P: common');
  await paper.emulateMedia({ media: 'print' });
  await expect(paper.getByRole('button', { name: 'Print this page' })).toBeHidden();
  await paper.screenshot({ path: join(screens, info.project.name, 'print-buyer-paper.png') });
  await paper.close();
  await sheet.getByLabel('Why all the same').fill('the buyer knows');
  await page.screenshot({ path: join(screens, info.project.name, 'ask-first.png') });
  await sheet.getByRole('button', { name: 'Record it all the same' }).click();
  await expect(page.getByText(/^Left on .*: sold$/)).toBeVisible();
  await open(page, served, 'collection/journal');
  await expect(page.getByText(/sold, warned, and all the same: the buyer knows/)).toBeVisible();
});

test('a table asks once whether its new animals go into quarantine', async ({ page, served }, info) => {
  await open(page, served, 'collection/import');
  await page
    .getByLabel(/^Or paste the rows here/)
    .fill('Name,Tub,Quarantine\nQuill,N1,\nQuince,N2,no\nQuartz,N3,yes');
  const question = page.getByRole('group', { name: 'Put the 3 new animals in quarantine?' });
  await expect(question.getByLabel('No, not in quarantine')).toBeChecked();
  await page.getByLabel('They arrived today, from outside').check();
  await expect(question.getByLabel('Yes, in quarantine')).toBeChecked();
  await question.scrollIntoViewIfNeeded();
  await page.screenshot({ path: join(screens, info.project.name, 'import-quarantine.png') });
  await page.getByRole('button', { name: 'Add all of it' }).click();
  await told(page, /entries are on record/);
  const { animals } = await answerOf(page, served, 'collection');
  const kept = animals.filter((one) => /^Qu(ill|ince|artz)$/.test(one.name));
  expect(Object.fromEntries(kept.map((one) => [one.name, one.quarantine]))).toEqual({
    ...{ Quill: true, Quince: false, Quartz: true },
  });
  await page.getByRole('button', { name: 'Undo' }).click();
  await told(page, /Taken back/);
  await open(page, served, 'collection/journal');
  await expect(page.getByText(/undo of adding 3 animals/).first()).toBeVisible();
});

test('a name that is taken is asked about, and a wrong row is left out as it was shown', async ({
  page,
  served,
}, info) => {
  await open(page, served, 'collection/import');
  const before = await answerOf(page, served, 'collection');
  const taken = before.animals[0]?.name ?? '';
  await page
    .getByLabel(/^Or paste the rows here/)
    .fill(`Name;Tub;Since\n${taken};N1;\nQuill;N2;2031-01-01\nQuince;;`);
  const question = page.getByRole('group', { name: /there is an animal of that name already/ });
  await expect(question).toBeVisible();
  await expect(page.getByText('“2031-01-01” has not come yet.')).toBeVisible();
  await expect(page.getByText('Quince has no enclosure')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Add all of it' })).toBeDisabled();
  await question.getByLabel('The same: leave the row out').check();
  await expect(page.getByText('The server has checked all of it')).toBeVisible();
  await question.scrollIntoViewIfNeeded();
  await page.screenshot({ path: join(screens, info.project.name, 'import-names.png') });
  await page.getByRole('button', { name: 'Add all of it' }).click();
  await told(page, /entries are on record/);
  const { animals } = await answerOf(page, served, 'collection');
  expect(animals.length).toBe(before.animals.length + 1);
  expect(animals.filter((one) => one.name === taken)).toHaveLength(
    before.animals.filter((one) => one.name === taken).length,
  );
});

test('a sign of illness stands first until it is gone; a death stops the company', async ({
  page,
  served,
}, info) => {
  await open(page, served, 'animal/ada');
  await page.locator('summary', { hasText: 'Any of these?' }).click();
  const question = page.getByRole('region', { name: 'Any of these?' });
  await question.getByRole('button', { name: 'Pale gums' }).click();
  await question.getByRole('button', { name: 'Save: a veterinarian today' }).click();
  await told(page, /Ada: ring a veterinarian today\./);
  await expect(page.getByRole('heading', { name: 'Ring a veterinarian today' })).toBeVisible();
  await look(page, info, 'sign');
  await open(page, served, 'today');
  await expect(page.getByText(/^Ring a veterinarian today about Ada: pale gums/)).toBeVisible();
  await look(page, info, 'sign-today');
  await open(page, served, 'animal/ada');
  await page.getByText('Is a sign gone?').click();
  await page.getByRole('button', { name: 'Pale gums: gone' }).click();
  await expect(page.getByRole('heading', { name: 'Ring a veterinarian today' })).toHaveCount(0);

  await page.getByText('It left the collection', { exact: true }).click();
  await page.getByLabel('Why').selectOption({ label: 'Died' });
  await page.getByRole('button', { name: 'Record that it left' }).click();
  await page.getByRole('button', { name: 'Yes, it left' }).click();
  await expect(page.getByRole('heading', { name: /^Ada died, / })).toBeVisible();
  await look(page, info, 'death');
  await page.getByRole('link', { name: 'What it was given' }).click();
  await expect(page.getByText(/Keep the body bagged and cool, not frozen/)).toBeVisible();
  await look(page, info, 'given');
});
