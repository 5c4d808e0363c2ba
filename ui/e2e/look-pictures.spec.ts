// Twelve screens before and after they were drawn (docs/look.md), made when they are asked for: the later by
// MITEFALL_PICTURES=1, the earlier by MITEFALL_PICTURES=before with MITEFALL_BIN a program of before.
import type { Page } from '@playwright/test';
import { mkdirSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, long, open, settled, test } from './served';
import { smallPng } from './small-png';

const asked = process.env['MITEFALL_PICTURES'];
const when = asked === 'before' ? 'before' : 'after';
const folder = resolve('../docs/pictures/look');
const mostBytes = 70_000;

test.skip(asked === undefined, 'asked for by MITEFALL_PICTURES');

interface Shown {
  name: string;
  place: string;
  /** Where the same was done before. */
  before?: string;
  first?: (page: Page) => Promise<void>;
}
const tapOne = (page: Page): Promise<void> => page.getByRole('button', { name: 'One', exact: true }).click();
const recommended = (page: Page): Promise<void> =>
  expect(page.getByRole('heading', { name: 'Recommended', exact: true })).toBeVisible(long);

const screens: Record<'empty' | 'demo' | 'adopted', Shown[]> = {
  empty: [{ name: '01-first-night', place: '' }],
  demo: [{ name: '06-plans', place: 'plan/choose', first: recommended }],
  adopted: [
    { name: '02-first-screen', place: '' },
    { name: '03-where-it-was', place: 'sighting/a-05', first: tapOne },
    { name: '04-tonight', place: 'tonight' },
    { name: '05-todays-work', place: 'tub', before: 'today' },
    { name: '07-the-plan-now', place: 'plan/now' },
    { name: '08-mix', place: 'mix' },
    { name: '09-checks', place: 'checks' },
    { name: '10-an-animal', place: 'animal/ada' },
    { name: '11-shopping', place: 'mix/shopping' },
    { name: '12-evidence', place: 'evidence' },
  ],
};

for (const collection of ['empty', 'demo', 'adopted'] as const) {
  test.describe(collection, () => {
    test.use({ collection });
    test(`${collection}: the screens ${when} they were drawn`, async ({ page, served }) => {
      mkdirSync(folder, { recursive: true });
      await page.addInitScript(() =>
        localStorage.setItem(
          'mitefall.bench',
          '{"stock":"10","stockUnit":"mg/mL","stockRead":true,"stockIs":"plain","expires":"","syringes":["1 mL/0.01 mL","3 mL/0.1 mL","5 mL/0.2 mL","10 mL/0.5 mL","20 mL/1 mL"],"cups":[],"spoons":[],"bottle":"","preserved":false,"packages":[]}',
        ),
      );
      for (const { name, place, before, first } of screens[collection]) {
        await open(page, served, when === 'before' ? (before ?? place) : place);
        await first?.(page);
        await settled(page);
        const small = smallPng(await page.screenshot());
        writeFileSync(`${folder}/${name}-${when}.png`, small);
        expect(small.length, name).toBeLessThan(mostBytes);
      }
    });
  });
}
