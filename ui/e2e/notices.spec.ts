// A notice has a place of its own: it lies over no heading, no key and no field, however long it is.
import type { Locator, Page, TestInfo } from '@playwright/test';
import { join } from 'node:path';
import { screens } from './collections';
import { answerOf, expect, open, test, type Served } from './served';

test.use({ collection: 'adopted' });

/** A notice goes after some seconds; here it stays until it was measured. */
async function keepNotices(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const soon = window.setTimeout.bind(window);
    window.setTimeout = ((run: () => void, wait = 0, ...rest: unknown[]) =>
      wait >= 6000 ? 0 : soon(run, wait, ...rest)) as typeof window.setTimeout;
  });
}

/** What a notice lies over, by its text. Only what is in sight counts: what is scrolled away is not covered. */
async function covered(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    type Box = { left: number; top: number; right: number; bottom: number };
    const meet = (a: Box, b: Box): Box => ({
      left: Math.max(a.left, b.left),
      top: Math.max(a.top, b.top),
      right: Math.min(a.right, b.right),
      bottom: Math.min(a.bottom, b.bottom),
    });
    const isThere = (box: Box): boolean => box.right - box.left > 1 && box.bottom - box.top > 1;
    const inSight = (element: Element): Box => {
      let box: Box = meet(element.getBoundingClientRect(), {
        ...{ left: 0, top: 0, right: innerWidth, bottom: innerHeight },
      });
      for (let around = element.parentElement; around; around = around.parentElement)
        if (getComputedStyle(around).overflowY !== 'visible') box = meet(box, around.getBoundingClientRect());
      return box;
    };
    const notices = [...document.querySelectorAll('[role=status]')].filter(
      (one) => one.textContent?.trim() && isThere(inSight(one)),
    );
    if (notices.length === 0) throw new Error('there is no notice to be measured');
    const others = [...document.querySelectorAll('h1,h2,h3,button,a,input,select,textarea,summary')];
    return others
      .filter((one) => !notices.some((notice) => notice.contains(one)))
      .filter((one) => isThere(inSight(one)))
      .filter((one) => notices.some((notice) => isThere(meet(inSight(one), inSight(notice)))))
      .map((one) => one.textContent?.trim() || one.getAttribute('aria-label') || one.tagName);
  });
}

async function measure(page: Page, info: TestInfo, name: string, text: RegExp): Promise<void> {
  const notice = page.getByRole('status').filter({ hasText: text });
  await expect(notice).toBeVisible();
  await expect(notice).toBeInViewport();
  for (const part of [0, 0.5, 1]) {
    await page.evaluate((share) => {
      for (const one of [document.scrollingElement, document.getElementById('scroll')])
        one?.scrollTo(0, share * one.scrollHeight);
    }, part);
    expect(await covered(page), `${name}, scrolled ${part}`).toEqual([]);
    await expect(notice, 'it is seen wherever one reads').toBeInViewport();
  }
  await page.screenshot({ path: join(screens, info.project.name, `notice-${name}.png`) });
}

async function nameOfLength(page: Page, served: Served, length: number): Promise<string> {
  const name = 'Long '.repeat(length / 5).trim();
  const { rooms } = await answerOf(page, served, 'collection');
  const body = {
    ...{ enclosure: 'long', name, room: rooms[0]?.room, material: 'sealed', substrate: 'paper' },
    ...{ day_c: 28, night_c: 25, humidity_percent: 50, floor_cm2: 3000 },
  };
  const written = await page.request.post(`${served.address}/api/record`, {
    data: { request: 'a-room-for-long-names', facts: [{ kind: 'enclosure-added', body }] },
    headers: { Origin: served.address },
  });
  expect(written.status()).toBe(200);
  return name;
}

test('what was just done stands beside the screen, on every screen', async ({ page, served }, info) => {
  await keepNotices(page);
  await open(page, served, 'animal/ada');
  await page.getByText('Weigh', { exact: true }).click();
  await page.getByLabel('Weight, g').fill('1620');
  await page.getByRole('button', { name: 'Record weight' }).click();
  await measure(page, info, 'animal', /Undo/);

  await open(page, served, 'today');
  await page.getByRole('button', { name: /^Done: Mix/ }).click();
  await measure(page, info, 'today', /Undo/);

  await open(page, served, 'collection/add');
  await page.getByRole('button', { name: 'Clear the list' }).click();
  await measure(page, info, 'add', /The list is empty again/);

  await open(page, served, 'room/snakes');
  await page.getByLabel('Study').check();
  await page.getByRole('button', { name: 'Record the doors' }).click();
  await measure(page, info, 'room', /The room is put right/);
});

test('a long notice, and one beside another', async ({ page, served }, info) => {
  await keepNotices(page);
  const name = await nameOfLength(page, served, 400);
  await open(page, served, 'sighting');
  await page.getByRole('searchbox').fill(name);
  await page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
  await page.getByText('2 to 10').click();
  await page.getByRole('button', { name: 'On the paper' }).click();
  await measure(page, info, 'long', /Long Long/);

  await page.route('**/api/tick', (route) => route.abort());
  await open(page, served, 'today');
  await page.getByRole('button', { name: /^Done: Mix/ }).click();
  await expect(page.getByText('1 tick waits to be sent.')).toBeVisible();
  await measure(page, info, 'two', /Undo/);
});

test('keys move the screen though nothing has the focus', async ({ page, served }) => {
  await open(page, served, 'evidence');
  const top = (): Promise<number> => page.evaluate(() => document.getElementById('scroll')?.scrollTop ?? -1);
  // A key moves what is longer than the screen: the sources have come by then.
  const longer = (): Promise<boolean> =>
    page.evaluate(() => {
      const scroll = document.getElementById('scroll');
      return scroll !== null && scroll.scrollHeight > scroll.clientHeight;
    });
  await expect.poll(longer).toBe(true);
  await page.keyboard.press('PageDown');
  await expect.poll(top).toBeGreaterThan(0);
  await page.keyboard.press('Home');
  await expect.poll(top).toBe(0);
});

test.describe('nothing moves under a finger', () => {
  const passedOver = /^Passed over today/;

  /** How far something moves within the next frames once `act` is done. */
  const movesBy = (target: Locator, act: 'jump' | 'tap'): Promise<number> =>
    target.evaluate(async (element, how) => {
      const frame = (): Promise<number> => new Promise(requestAnimationFrame);
      const top = (): number => element.getBoundingClientRect().top;
      if (how === 'jump') element.scrollIntoView();
      const before = top();
      if (how === 'tap') (element as HTMLElement).click();
      for (let frames = 0; frames < 3; frames += 1) await frame();
      return Math.abs(top() - before);
    }, act);

  test('a list that was jumped through lies still', async ({ page, served }) => {
    await open(page, served, 'today');
    await page.getByRole('button', { name: 'All', exact: true }).click();
    const last = page.getByText(passedOver);
    // A long list grows in its first moments: it is whole once every task stands there.
    const { tasks } = await answerOf(page, served, 'worklist');
    await expect(page.locator('.stop .task')).toHaveCount(tasks.length);
    expect(await movesBy(last, 'jump')).toBeLessThan(1);
    await last.click();
    await expect(page.getByRole('group').filter({ has: last }).getByRole('listitem').first()).toBeVisible();
  });

  test('a tick on its way pushes nothing about', async ({ page, served }) => {
    await open(page, served, 'today');
    let answer = (): void => {};
    const held = new Promise<void>((resolve) => (answer = resolve));
    await page.route('**/api/tick', async (route) => {
      await held;
      await route.continue();
    });
    const first = page.getByRole('button', { name: /^Done: Mix/ });
    expect(await movesBy(first, 'tap')).toBeLessThan(1);
    await expect(first).toHaveAttribute('aria-pressed', 'true');
    answer();
    await expect(page.getByText(/^1 of \d+ done$/)).toBeVisible();
  });
});
