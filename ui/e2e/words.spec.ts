// How many words meet the eye on a telephone before anything is tapped.
import type { Page } from '@playwright/test';
import { expect, open, settled, test } from './served';

const most = 120;

/** Words to be seen as the screen comes up, those on drawings and on the ways below included; and all that can be scrolled to. What is folded away counts as neither. */
export async function wordsOn(page: Page): Promise<{ inView: number; all: number }> {
  return page.evaluate(() => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const range = document.createRange();
    let inView = 0;
    let all = 0;
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const parent = node.parentElement;
      const isShown = parent?.checkVisibility({ visibilityProperty: true, opacityProperty: true });
      if (!parent || !isShown || parent.closest('.hidden, .skip, title, desc, script, option')) continue;
      for (const word of (node.textContent ?? '').matchAll(/[\p{L}\p{N}][^\s]*/gu)) {
        range.setStart(node, word.index);
        range.setEnd(node, word.index + word[0].length);
        const box = range.getBoundingClientRect();
        if (box.width <= 1 || box.right <= 0 || box.left >= innerWidth) continue;
        all += 1;
        if (box.bottom > 0 && box.top < innerHeight) inView += 1;
      }
    }
    return { inView, all };
  });
}

/** Screens that are to come down to `most`; each figure is that of today and may only go down. */
const toDo: Record<string, number> = { evidence: 136 };

const own = {
  empty: ['', 'ten-minutes', 'first-night', 'is-it-a-mite', 'sighting'],
  adopted: ['is-it-a-mite', 'ten-minutes', 'sighting', 'tonight'],
};
const others = [
  '',
  'today',
  'plan/now',
  'plan/choose',
  'plan/verdicts',
  'mix',
  'mix/strength',
  'mix/batches',
  'mix/shopping',
  'cupboard',
  'checks/record',
  'checks/next',
  'checks/origin',
  'collection',
  'collection/enclosures',
  'collection/add',
  'collection/import',
  'collection/journal',
  'animal/ada',
  'enclosure/a-05',
  'room/snakes',
  'contact/item/a-05',
  'contact/handled/a-05',
  'contact/outside',
  'evidence',
  'settings',
  'more',
];

for (const collection of ['empty', 'adopted'] as const) {
  test.describe(collection, () => {
    test.use({ collection });

    test('no screen shows more words than are read at night', async ({ page, served }) => {
      const places = collection === 'adopted' ? [...own.adopted, ...others] : own.empty;
      const rows: { place: string; inView: number; all: number; may: number }[] = [];
      for (const place of places) {
        await open(page, served, place);
        await expect(page.getByText('One moment…')).toHaveCount(0);
        await settled(page);
        const known: readonly string[] = own[collection];
        const may = known.includes(place) ? most : (toDo[place] ?? most);
        rows.push({ place, ...(await wordsOn(page)), may });
      }
      const told = rows.map(
        ({ place, inView, all, may }) =>
          [inView, all, may].map((count) => String(count).padStart(5)).join('') + `  #/${place}`,
      );
      console.log(['   in view, all, allowed', ...told].join('\n'));
      expect(rows.filter(({ inView, may }) => inView > may)).toEqual([]);
    });
  });
}
