// Is it a mite? From the first screen, before anything is typed, to a sighting with its place.
import { answerOf, expect, look, open, test, told } from './served';

test.describe('with nothing on record', () => {
  test.use({ collection: 'empty' });

  test('a speck is compared at true size one tap from the first screen', async ({ page, served }, info) => {
    await open(page, served);
    await page.getByRole('link', { name: 'Is it a mite?' }).click();
    await expect(page.getByRole('heading', { name: 'Is it a mite?', exact: true })).toBeVisible();
    await page.getByRole('button', { name: 'Set it with a card or coin' }).click();
    await page.getByRole('radio', { name: '1 euro' }).check();
    // A screen of 160 pixels to the inch has 160 / 25.4 = 6.3 pixels for a millimetre.
    await page.getByRole('slider').fill('6.3');
    await look(page, info, 'look-1-calibrate');
    await page.getByRole('button', { name: 'It fits' }).click();
    await told(page, /True size is set/);
    await page.reload();
    await expect(page.getByRole('button', { name: 'Set again' })).toBeVisible();
    const ruler = page.getByRole('img', { name: /millimetre scale/ });
    const wide = async (): Promise<number> => (await ruler.boundingBox())?.width ?? 0;
    // 55 mm and 1.5 mm on either side: 58 x 6.3 = 365.4 on the screen; on paper 58 x 96 / 25.4 = 219.2 (CSS: 96 to the inch).
    expect(await wide()).toBeCloseTo(365.4, 0);
    await page.emulateMedia({ media: 'print' });
    expect(await wide()).toBeCloseTo(219.2, 0);
    await page.emulateMedia({ media: 'screen' });
    await page.getByRole('button', { name: 'Not sure' }).click();
    await expect(page.getByRole('dialog', { name: 'Until you know' })).toBeVisible();
    await look(page, info, 'look-2-not-sure');
    await page.getByRole('button', { name: 'Close' }).click();
    await page.getByRole('link', { name: 'Looks like it' }).click();
    await expect(page.locator('main[data-place="#/ten-minutes"]')).toBeVisible();
  });
});

test('the place tapped on the drawing is what goes on record', async ({ page, served }, info) => {
  const places = async (): Promise<string[]> =>
    (await answerOf(page, served, 'journal')).entries.flatMap(({ kind, fact }) =>
      kind === 'sighted' && 'where' in fact ? [String(fact.where)] : [],
    );
  const before = (await places()).length;
  await open(page, served, 'is-it-a-mite');
  await page.getByRole('button', { name: 'Chin groove' }).click();
  await expect(page.getByText('the fold in the middle of the chin')).toBeVisible();
  await page.getByRole('link', { name: 'Looks like it' }).click();
  await page.getByRole('button', { name: /Tub B 01/ }).click();
  await page.getByRole('button', { name: 'One', exact: true }).click();
  await look(page, info, 'look-3-where');
  await page.getByRole('button', { name: 'Record: Chin groove' }).click();
  await told(page, /Goes on record as: on the animal\./);
  await expect(page.getByRole('heading', { name: 'Tonight', exact: true })).toBeVisible();

  await open(page, served, 'sighting/b-02');
  await page.getByRole('button', { name: 'One', exact: true }).click();
  await page.getByRole('button', { name: 'Water bowl' }).press('Enter');
  await told(page, /Goes on record as: in the water\./);
  const all = await places();
  expect(all).toHaveLength(before + 2);
  expect(all).toEqual(expect.arrayContaining(['on-animal', 'in-water']));

  await open(page, served, 'checks/record');
  await page.getByRole('radio', { name: '2 to 10' }).check();
  await page.getByRole('button', { name: 'Hide' }).click();
  await expect(page.getByText('Goes on record as: on the paper.')).toBeVisible();
  await expect(page.getByRole('radio', { name: 'On the paper' })).toBeChecked();
  await page.getByRole('radio', { name: 'On my hands' }).check();
  await expect(page.getByRole('button', { name: 'Hide' })).toHaveAttribute('aria-pressed', 'false');
});
