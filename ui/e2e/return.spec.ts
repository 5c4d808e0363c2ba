// Back, reload, and without a server: a screen is as it was left.
import type { Page } from '@playwright/test';
import { answerOf, expect, open, settled, test } from './served';

const scrolled = (page: Page): Promise<number> =>
  page.evaluate(() => Math.round(document.getElementById('scroll')?.scrollTop ?? -1));
test('the way back leads to where the screen was left, a new screen begins at its top', async ({
  page,
  served,
}) => {
  await open(page, served, 'collection');
  await expect(page.getByRole('link', { name: 'Ada', exact: true })).toBeVisible();
  // Left at once: before the browser has told that anything was scrolled.
  await page.evaluate(() => {
    document.getElementById('scroll')?.scrollTo(0, 600);
    history.pushState(null, '', '#/animal/ada');
    dispatchEvent(new HashChangeEvent('hashchange'));
  });
  await expect(page.locator('main[data-place="#/animal/ada"]')).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Ada', exact: true })).toBeVisible();
  await expect.poll(() => scrolled(page)).toBe(0);
  await page.goBack();
  await expect(page.locator('main[data-place="#/collection"]')).toBeVisible();
  await expect.poll(() => scrolled(page)).toBe(600);
  await page.reload();
  await expect(page.getByRole('link', { name: 'Ada', exact: true })).toBeVisible();
  await expect.poll(() => scrolled(page)).toBe(600);
});

test('what is half typed survives a reload and the way back, and is gone once it was sent', async ({
  page,
  served,
}) => {
  await open(page, served, 'animal/ada');
  const weight = page.getByLabel('Weight, g');
  const weighed = async (): Promise<number> =>
    (await answerOf(page, served, 'collection')).animals.find(({ animal }) => animal === 'ada')?.weight
      ?.mass_g ?? 0;
  // So near the last that nobody is asked whether it is right.
  const now = Math.round(await weighed()) - 1;
  await page.getByText('Weigh', { exact: true }).click();
  await weight.fill(String(now));
  await page.reload();
  await expect(weight).toHaveValue(String(now));
  await expect(weight).toBeVisible(); // its form stands open again
  await page.evaluate(() => (location.hash = '#/more'));
  await expect(page.locator('main[data-place="#/more"]')).toBeVisible();
  await page.goBack();
  await expect(weight).toHaveValue(String(now));
  // Another animal has a field of the same name: it is not filled.
  await open(page, served, 'animal/bruno');
  await expect(weight).toHaveValue('');
  await open(page, served, 'animal/ada');
  await expect(weight).toHaveValue(String(now));
  await page.getByRole('button', { name: 'Record weight' }).click();
  await expect.poll(weighed).toBe(now);
  await expect(weight).toHaveValue('');
  await page.reload();
  await expect(page.getByRole('heading', { name: 'Ada', exact: true })).toBeVisible();
  await settled(page);
  await expect(weight).toHaveValue('');
});

test('without a server the app still opens, from files it keeps and no others', async ({ page, served }) => {
  await open(page, served, 'ten-minutes');
  await page.evaluate(() => navigator.serviceWorker.ready);
  const kept = await page.evaluate(async () => {
    const [name = ''] = await caches.keys();
    const all = await (await caches.open(name)).keys();
    return all.map(({ url }) => new URL(url).pathname);
  });
  expect(kept).toContain('/');
  expect(kept.filter((path) => path.startsWith('/api/'))).toEqual([]);
  for (const path of kept) expect(path).toMatch(/^\/$|^\/favicon\.svg$|^\/assets\/[\w.-]+$/);
  const worker = await page.request.get(`${served.address}/sw.js`);
  expect(worker.headers()).toMatchObject({
    'content-type': 'text/javascript; charset=utf-8',
    'cache-control': 'no-cache',
  });
  served.stop();
  await page.reload();
  await expect(page.getByRole('heading', { name: 'The next ten minutes' })).toBeVisible();
  await expect(page.getByText('Lid on. No animal, bowl or hide leaves it.')).toBeVisible();
});
