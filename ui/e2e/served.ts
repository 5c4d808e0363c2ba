// A test with a server of its own, on a copy of one of the collections.
import AxeBuilder from '@axe-core/playwright';
import { expect, test as base, type BrowserContext, type Page, type TestInfo } from '@playwright/test';
import { spawn, type ChildProcess } from 'node:child_process';
import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Answers } from '../src/contract/answers';
import { program, screens } from './collections';

export interface Served {
  address: string;
  /** Where the home network finds it, when it is shared. */
  home: string;
  file: string;
  /** Ends it: from then on it cannot be reached. */
  stop: () => void;
}

interface Options {
  collection: 'empty' | 'demo' | 'adopted' | 'late';
  /** Shared on another address of this machine, which counts as the home network. */
  shared: boolean;
}

/** The addresses the server prints: for this machine and, if it is shared, for the home network. */
export function addressesOf(server: ChildProcess, wanted: number): Promise<string[]> {
  return new Promise((resolve, reject) => {
    let said = '';
    server.stdout?.on('data', (text: Buffer) => {
      said += text.toString();
      const found = said.match(/http:\/\/127\.0\.0\.\d:\d+/g) ?? [];
      if (found.length >= wanted) resolve([...found].sort());
    });
    server.on('exit', (code) => reject(new Error(`the server ended with ${code}: ${said}`)));
  });
}

/** Long questions on a machine that does something else as well. */
export const long = { timeout: 600_000 };

type Heard = typeof globalThis & { heard: string[] };

/** Keeps every notice, as it is gone from the screen after some seconds. */
async function listen(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const heard: string[] = ((globalThis as Heard).heard = []);
    new MutationObserver(() => {
      for (const one of document.querySelectorAll('[role=status]'))
        if (one.textContent && !heard.includes(one.textContent)) heard.push(one.textContent);
    }).observe(document, { subtree: true, childList: true, characterData: true });
  });
}

interface Fixtures {
  served: Served;
  /** Another person at a device of their own. */
  another: () => Promise<Page>;
}

export const test = base.extend<Options & Fixtures>({
  collection: ['demo', { option: true }],
  shared: [false, { option: true }],
  served: async ({ collection, shared }, use, info) => {
    const folder = process.env['MITEFALL_E2E'] ?? '';
    const file = join(folder, `${info.testId}-${info.retry}.mitefall`);
    copyFileSync(join(folder, `${collection}.mitefall`), file);
    const sharing = shared ? ['--share', '--share-address', '127.0.0.2'] : [];
    const words = ['-f', file, 'serve', '--port', '0', ...sharing];
    const server = spawn(program, words, { stdio: ['ignore', 'pipe', 'inherit'] });
    try {
      const [address = '', home = ''] = await addressesOf(server, shared ? 2 : 1);
      await use({ address, home, file, stop: () => server.kill() });
    } finally {
      server.kill();
    }
  },
  another: async ({ browser }, use) => {
    const contexts: BrowserContext[] = [];
    await use(async () => {
      const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
      contexts.push(context);
      await listen(context);
      return context.newPage();
    });
    for (const context of contexts) await context.close();
  },
  context: async ({ context }, use) => {
    await listen(context);
    await use(context);
  },
  page: async ({ page }, use) => {
    const faults: string[] = [];
    page.on('pageerror', (error) => faults.push(String(error)));
    page.on('console', (message) => {
      if (/Content Security Policy|Uncaught/.test(message.text())) faults.push(message.text());
    });
    await use(page);
    expect(faults, 'the page threw nothing and kept to its policy').toEqual([]);
  },
});

export { expect };

/** Goes to a screen and waits until it is the one that is shown. */
export async function open(page: Page, served: Served, place = ''): Promise<void> {
  await page.goto(`${served.address}/#/${place}`);
  await expect(page.locator(`main[data-place="#/${place}"]`)).toBeVisible();
  await expect(page.locator('h1')).toBeVisible();
}

/** Waits until the page has told it in a notice, be it still on the screen or gone. */
export async function told(page: Page, text: RegExp): Promise<void> {
  const heard = (): Promise<string[]> => page.evaluate(() => (globalThis as Heard).heard);
  await expect.poll(heard).toContainEqual(expect.stringMatching(text));
}

/** What the program itself answers to a question, beside the page. */
export async function answerOf<K extends keyof Answers>(
  page: Page,
  served: Served,
  what: K,
  query: Record<string, string> = {},
): Promise<Answers[K]> {
  const answer = await page.request.get(`${served.address}/api/${what}`, { params: query });
  return ((await answer.json()) as { result: Answers[K] }).result;
}

/** How many entries of a kind are in the journal, by the program itself. */
export async function countOf(page: Page, served: Served, kind: string): Promise<number> {
  const { entries } = await answerOf(page, served, 'journal');
  return entries.filter((entry) => entry.kind === kind).length;
}

/** Lets the page be as long as its screen, and takes that back: all of it is to be looked at. */
async function unroll(page: Page, long: boolean): Promise<void> {
  await page.evaluate((isLong) => {
    const scroll = document.getElementById('scroll');
    if (!scroll?.parentElement) throw new Error('there is no screen');
    scroll.style.overflow = isLong ? 'visible' : '';
    scroll.parentElement.style.height = isLong ? 'auto' : '';
    scroll.parentElement.style.minHeight = isLong ? '100vh' : '';
  }, long);
}

/** By how many pixels something is wider than its screen. */
export const widerBy = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const scroll = document.getElementById('scroll') ?? document.documentElement;
    const beyond = (one: Element): number => one.scrollWidth - one.clientWidth;
    return Math.max(beyond(document.documentElement), beyond(scroll));
  });

/** The same once what measures its own width has done so: of a screen that was just made narrower. */
export async function stillWiderBy(page: Page): Promise<number> {
  const fits = expect.poll(() => widerBy(page), { timeout: 20_000 }).toBeLessThanOrEqual(0);
  await fits.catch(() => undefined);
  return widerBy(page);
}

/** A picture of the whole screen, kept as build output. */
export async function picture(page: Page, name: string): Promise<void> {
  await unroll(page, true);
  await page.screenshot({ path: join(screens, `${name}.png`), fullPage: true });
  await unroll(page, false);
}

/** Accessibility violations of all that the screen shows, also of what has to be scrolled to. */
export async function violationsOf(page: Page): Promise<string[]> {
  await unroll(page, true);
  const { violations } = await new AxeBuilder({ page }).analyze();
  await unroll(page, false);
  return violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join(' ')}`);
}

/** A picture kept as build output; no accessibility violation; nothing wider than the screen. */
export async function look(page: Page, info: TestInfo, name: string): Promise<void> {
  const wider = await widerBy(page);
  await picture(page, `${info.project.name}/${name}`);
  expect(wider, `${name} fits the width of the screen`).toBeLessThanOrEqual(0);
  expect(await violationsOf(page), `${name} has no accessibility violation`).toEqual([]);
}

/** Waits until nothing is being worked out any more. */
export async function settled(page: Page): Promise<void> {
  await expect(page.locator('main progress[aria-label]:not(.day)')).toHaveCount(0, long);
}
