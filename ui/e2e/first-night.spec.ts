// The first night: from an empty app to the first right action and to an adopted plan, counted in taps and fields.
import type { Locator, Page } from '@playwright/test';
import { answerOf, expect, long, look, open, settled, test, told, type Served } from './served';

test.use({ collection: 'empty' });

const mostTaps = 8;
const mostFields = 6;

/** Everything the keeper does goes through it: nothing is tapped or typed uncounted. */
class Hand {
  taps = 0;
  fields = 0;
  constructor(private readonly page: Page) {}

  async tap(what: Locator): Promise<void> {
    this.taps += 1;
    await what.click();
  }
  async type(label: string, text: string): Promise<void> {
    this.fields += 1;
    await this.page.getByLabel(label, { exact: true }).fill(text);
  }
  button = (name: string): Promise<void> => this.tap(this.page.getByRole('button', { name, exact: true }));
  link = (name: string): Promise<void> => this.tap(this.page.getByRole('link', { name }));
}

const ruling = async (page: Page, served: Served, method: string): Promise<string[]> => {
  const { methods, animals } = await answerOf(page, served, 'rulings');
  const at = methods.findIndex((one) => one === method);
  return animals.map(({ rulings }) => rulings[at]?.ruling ?? 'none');
};

test('three snakes: the first right action at one tap, an adopted plan within eight taps and six fields', async ({
  page,
  served,
}, info) => {
  const hand = new Hand(page);
  await open(page, served);
  await look(page, info, 'night-1-empty');
  await hand.link('What to do now');
  await expect(page.getByText('Lid on. No animal, bowl or hide leaves it.')).toBeVisible();
  await expect(page.getByText('No spray, no drug, no oil yet.')).toBeVisible();
  await expect(page.getByText('Not before we know which animal it is.')).toBeVisible();
  const toFirst = { taps: hand.taps, fields: hand.fields };
  expect(toFirst).toEqual({ taps: 1, fields: 0 });
  await look(page, info, 'night-2-ten-minutes');

  await hand.button('White paper');
  await hand.link('Next: your animals');
  await hand.type('How many?', '3');
  await hand.type('Which kind?', 'corn snake');
  for (const [index, weight] of ['620', '540', '95'].entries())
    await hand.type(`Snake ${index + 1}, g`, weight);
  await hand.button('Snake 2: on it');
  await hand.button('2 to 10');
  await look(page, info, 'night-3-animals');
  await hand.button('No to all four');
  await look(page, info, 'night-4-answered');
  await hand.button('Save, and work out the plan');
  await told(page, /3 animals and the sighting are on record/);
  await expect(page.getByRole('heading', { name: 'Recommended', exact: true })).toBeVisible(long);
  await settled(page);
  await look(page, info, 'night-5-plan');
  await hand.button('Adopt: Recommended');
  await expect(page.getByRole('heading', { name: 'Today', exact: true })).toBeVisible();

  console.log(`first right action: ${toFirst.taps} tap, ${toFirst.fields} fields`);
  console.log(`adopted plan: ${hand.taps} taps, ${hand.fields} fields`);
  expect(hand.taps).toBeLessThanOrEqual(mostTaps);
  expect(hand.fields).toBeLessThanOrEqual(mostFields);

  // The plan began with what is at home: no spray. And it is on record so.
  const course = await answerOf(page, served, 'course');
  expect(course.without_spray).toBe(true);
  const methods = new Set(
    (course.rounds ?? []).flatMap(({ treatments }) => treatments.map(({ method }) => method)),
  );
  expect([...methods].filter((method) => method.startsWith('spray'))).toEqual([]);
  const { animals, sightings } = await answerOf(page, served, 'collection');
  expect(animals.map(({ name, weight }) => [name, weight?.mass_g])).toEqual([
    ['Snake 1', 620],
    ['Snake 2', 540],
    ['Snake 3', 95],
  ]);
  expect(animals.flatMap(({ unknown }) => unknown)).toEqual([]);
  expect(sightings).toMatchObject([{ enclosure: 'tub-2', count: '2-10', where: 'on-animal' }]);

  await open(page, served, 'mix/shopping');
  await expect(page.getByText('This plan sprays nothing: no drug to buy.')).toBeVisible();
  await expect(page.getByLabel(/^Gloves: \d+ pairs$/)).toBeVisible();
  await expect(page.getByLabel(/^White paper: .* m², for \d+ floors$/)).toBeVisible();
  await look(page, info, 'night-6-shopping');
});

test('what is asked and not answered stays unknown, and is never allowed', async ({ page, served }, info) => {
  const hand = new Hand(page);
  await open(page, served, 'first-night');
  await hand.type('How many?', '1');
  await hand.type('Which kind?', 'corn snake');
  await hand.type('Snake 1, g', '620');
  await hand.button('Snake 1: on it');
  await hand.button('One');
  await hand.button('Save, and work out the plan');
  await expect(page.locator('main[data-place="#/plan/choose"]')).toBeVisible();
  const states = async (): Promise<string[]> =>
    (await answerOf(page, served, 'collection')).animals.flatMap(({ unknown }) =>
      unknown.map(({ state }) => state),
    );
  expect(await states()).toEqual(['shed', 'gravid', 'newborn']);
  expect(await ruling(page, served, 'spray-animal')).toEqual(['ask-vet']);
  expect(await ruling(page, served, 'soak')).toEqual(['ask-vet']);
  const { bystanders } = await answerOf(page, served, 'collection');
  expect(bystanders).toMatchObject([{ taxon: null, room: null }]);

  // Answered on its page: what is told is no longer in the way, what is not still is.
  await open(page, served, 'animal/snake-1');
  await look(page, info, 'night-7-not-known');
  const gravid = page.getByRole('group', { name: 'Gravid, or just laid?' });
  await gravid.getByRole('button', { name: 'No', exact: true }).click();
  await expect(gravid).toHaveCount(0);
  expect(await states()).toEqual(['shed', 'newborn']);
  expect(await ruling(page, served, 'soak')).toEqual(['allowed']);
  expect(await ruling(page, served, 'spray-animal')).toEqual(['ask-vet']);
});

test('a form that is half filled, and ticks, survive a reload', async ({ page, served }) => {
  await open(page, served, 'ten-minutes');
  const lid = page.getByRole('button', { name: /^Done: Lid on/ });
  await lid.click();
  await page.reload();
  await expect(lid).toHaveAttribute('aria-pressed', 'true');
  await open(page, served, 'first-night');
  await page.getByLabel('How many?', { exact: true }).fill('2');
  await page.getByLabel('Which kind?').fill('ball python');
  await page.getByLabel('Snake 2, g').fill('1400');
  await page.getByRole('button', { name: 'Snake 2: in its water' }).click();
  await page.reload();
  await expect(page.getByLabel('Which kind?')).toHaveValue('ball python');
  await expect(page.getByLabel('Snake 2, g')).toHaveValue('1400');
  await expect(page.getByRole('button', { name: 'Snake 2: in its water' })).toHaveAttribute(
    'aria-pressed',
    'true',
  );
});
