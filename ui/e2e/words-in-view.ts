// How much is to be read before the first tap.
import type { Page, TestInfo } from '@playwright/test';
import { expect } from './served';

/** Most words that stand in view on a telephone before anything is tapped. */
export const mostWords = 120;

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

/** Tells the count in the report; of a telephone it is held against the most. */
export async function readQuickly(page: Page, info: TestInfo, name: string): Promise<void> {
  const { inView } = await wordsOn(page);
  console.log(`${info.project.name}: ${name}: ${inView} words in view`);
  if (info.project.name.startsWith('phone'))
    expect(inView, `${name}: words in view before a tap`).toBeLessThanOrEqual(mostWords);
}
