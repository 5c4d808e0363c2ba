// Every screen: few words before a tap, nothing cut off, no accessibility violation, a picture. It is opened once and then
// looked at in other sizes and colours; MITEFALL_E2E_ALL=1 takes every size, both themes and all three collections, and writes
// its table to ../build/screens/table.md.
import type { Page } from '@playwright/test';
import { appendFileSync } from 'node:fs';
import { join } from 'node:path';
import { screens } from './collections';
import { placesOf, type Gone } from './places';
import { expect, open, picture, settled, stillWiderBy, test, violationsOf } from './served';
import { mostWords, wordsOn } from './words-in-view';

const all = process.env['MITEFALL_E2E_ALL'] === '1';

interface Look {
  size: string;
  width: number;
  height: number;
  theme: 'light' | 'dark';
}
const themes = ['light', 'dark'] as const;
const phone = { size: '390', width: 390, height: 844 };
const desk = { size: '1280', width: 1280, height: 800 };
const sizes = [
  { size: '320', width: 320, height: 640 },
  phone,
  { size: '768', width: 768, height: 1024 },
  desk,
  { size: '1920', width: 1920, height: 1080 },
  // A page at 200 % has half the pixels of its window: of 1280 x 800 so many.
  { size: '1280 at 200 %', width: 640, height: 400 },
];
/** Asked for all: every size in both themes with a plan, in one after the other without. */
const looksAt = (collection: Gone): Look[] =>
  all
    ? sizes.flatMap((size, at) =>
        themes
          .filter((_, theme) => collection === 'adopted' || theme === at % 2)
          .map((theme) => ({ ...size, theme })),
      )
    : [
        { ...phone, theme: 'dark' },
        { ...desk, theme: 'light' },
      ];

/** What is wrong with the screen in this size and theme; nothing, where nothing is. */
async function faultsOf(page: Page, place: string, { width, height, theme, size }: Look): Promise<string[]> {
  await page.setViewportSize({ width, height });
  // Colours that are still on their way from one theme to the other are nobody's.
  await page.emulateMedia({ colorScheme: theme, reducedMotion: 'reduce' });
  const wider = await stillWiderBy(page);
  if (!all) await picture(page, `phone-and-desk/${place.replaceAll('/', '-') || 'situation'}-${size}`);
  const faults = [...(wider > 0 ? [`${wider} px too wide`] : []), ...(await violationsOf(page))];
  return faults.map((fault) => `#/${place} at ${size}, ${theme}: ${fault}`);
}

/** A row of the table: words in view and in all, and for each size how many faults. */
const rowOf = (place: string, cells: (string | number)[]): string =>
  `| #/${place} | ${cells.join(' | ')} |\n`;

async function goThrough(page: Page, served: Parameters<typeof open>[1], collection: Gone, places: string[]) {
  const faults: string[] = [];
  for (const place of places) {
    await page.setViewportSize(phone);
    await open(page, served, place);
    await expect(page.getByText('One moment…')).toHaveCount(0);
    await settled(page);
    if (collection === 'adopted') await expect(page.getByRole('alert')).toHaveCount(0);
    const { inView, all: inAll } = await wordsOn(page);
    if (inView > mostWords && !place.startsWith('print/')) faults.push(`#/${place}: ${inView} words in view`);
    const found: string[][] = [];
    for (const one of looksAt(collection)) found.push(await faultsOf(page, place, one));
    if (!all) {
      await page.setViewportSize({ width: 320, height: 640 });
      const wider = await stillWiderBy(page);
      if (wider > 0) faults.push(`#/${place} at 320: ${wider} px too wide`);
    }
    faults.push(...found.flat());
    const cells = [inView, inAll, ...found.map((one) => one.length)];
    if (all) appendFileSync(join(screens, 'table.md'), rowOf(place, [collection, ...cells]));
  }
  return faults;
}

const collections: Gone[] = all ? ['adopted', 'demo', 'empty'] : ['adopted', 'empty'];
for (const collection of collections) {
  test.describe(collection, () => {
    test.use({ collection });
    // What the ways of an empty collection have in common with a full one is looked at there.
    const groups = placesOf(collection).filter(
      ([group]) => all || collection === 'adopted' || group === 'the first night',
    );
    for (const [group, places] of groups) {
      test(`${group}: every screen is read at a glance and by everybody`, async ({ page, served }) => {
        if (collection === 'adopted')
          await page.addInitScript(() =>
            localStorage.setItem('mitefall.bench', '{"stockRead":true,"stockIs":"plain"}'),
          );
        expect(await goThrough(page, served, collection, places)).toEqual([]);
      });
    }
  });
}
