// How much is to be read before the first tap.
import type { Page, TestInfo } from '@playwright/test';
import { expect } from './served';

/** Most words that stand in view on a telephone before anything is tapped. */
export const mostWords = 120;

/** Words of the page that are in view: what is hidden, cut off or further down does not count. */
export const wordsInView = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    let count = 0;
    while (walker.nextNode()) {
      const text = walker.currentNode;
      const holder = text.parentElement;
      if (!holder || !holder.checkVisibility() || holder.closest('.hidden, .skip')) continue;
      const range = document.createRange();
      range.selectNodeContents(text);
      const isIn = [...range.getClientRects()].some(
        (box) =>
          box.width > 0 && box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
      );
      if (isIn) count += text.textContent?.match(/[\p{L}\p{N}][^\s]*/gu)?.length ?? 0;
    }
    return count;
  });

/** Tells the count in the report; of a telephone it is held against the most. */
export async function readQuickly(page: Page, info: TestInfo, name: string): Promise<void> {
  const count = await wordsInView(page);
  console.log(`${info.project.name}: ${name}: ${count} words in view`);
  if (info.project.name.startsWith('phone'))
    expect(count, `${name}: words in view before a tap`).toBeLessThanOrEqual(mostWords);
}
