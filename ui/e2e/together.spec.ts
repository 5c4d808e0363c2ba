// Two people, a lost connection, and hands that only use the keyboard.
import { expect, open, test } from './served';

test.use({ collection: 'adopted' });

const mix = /^Done: Mix/;
const water = /^Done: Take the water dish out of Tub A 01/;

test('ticks made without a connection are kept over a reload and sent later', async ({
  page,
  served,
  context,
}) => {
  await open(page, served, 'today');
  await expect(page.getByRole('button', { name: mix })).toBeVisible();
  await page.route('**/api/tick', (route) => route.abort());
  await page.getByRole('button', { name: mix }).click();
  await page.getByRole('button', { name: water }).click();
  await expect(page.getByText('2 ticks wait to be sent.')).toBeVisible();
  await page.reload();
  await expect(page.getByText('2 ticks wait to be sent.')).toBeVisible();
  await expect(page.getByText(/^2 of \d+ done$/)).toBeVisible();
  await page.unroute('**/api/tick');
  await expect(page.getByText(/wait to be sent/)).toHaveCount(0);
  const other = await context.newPage();
  await open(other, served, 'today');
  await expect(other.getByText(/^2 of \d+ done$/)).toBeVisible();
});

test('a reaction without a connection is kept, shown, and sent later', async ({ page, served }) => {
  await open(page, served, 'today');
  const more = page.getByRole('button', { name: /^More about: (Mist|Soak) Ada/ });
  await more.click();
  await page.getByRole('button', { name: 'The animal reacted' }).click();
  await page.getByLabel('What you saw').fill('limp');
  await page.keyboard.press('Escape');
  await more.click();
  await page.getByRole('button', { name: 'The animal reacted' }).click();
  await expect(page.getByLabel('What you saw')).toHaveValue('limp');
  await page.route('**/api/record', (route) => route.abort());
  await page.getByRole('button', { name: 'Put on record' }).click();
  await expect(page.getByText(/Ada: kept on this device/)).toBeVisible();
  await page.getByRole('dialog').getByRole('button', { name: 'Close' }).last().click();
  await expect(page.getByText(/waits to be sent: Ada reacted/)).toBeVisible();
  await page.unroute('**/api/record');
  await expect(page.getByText(/waits to be sent/)).toHaveCount(0);
  await expect(page.getByRole('button', { name: /^Done: Mist Ada/ })).toHaveCount(0);
});

test('a tick is taken back by a second tap', async ({ page, served }) => {
  await open(page, served, 'today');
  const tub = page.getByRole('button', { name: water });
  await tub.click();
  await expect(tub).toHaveAttribute('aria-pressed', 'true');
  await expect(page.getByText(/^1 of \d+ done$/)).toBeVisible();
  await page.waitForTimeout(800);
  await tub.click();
  await expect(tub).toHaveAttribute('aria-pressed', 'false');
  await expect(tub).toBeFocused();
  await expect(page.getByText(/^0 of \d+ done$/)).toBeVisible();
});

test('a lost connection is said, and what was missed is caught up with', async ({
  page,
  served,
  context,
  browser,
}) => {
  await open(page, served, 'today');
  await expect(page.getByRole('button', { name: mix })).toBeVisible();
  await context.setOffline(true);
  await page.getByRole('button', { name: mix }).click();
  await expect(page.getByText('1 tick waits to be sent.')).toBeVisible();
  const elsewhere = await (await browser.newContext()).newPage();
  await open(elsewhere, served, 'today');
  await elsewhere.getByRole('button', { name: water }).click();
  await expect(elsewhere.getByText(/^1 of \d+ done$/)).toBeVisible();
  await context.setOffline(false);
  await expect(page.getByText(/^2 of \d+ done$/)).toBeVisible();
  await expect(elsewhere.getByText(/^2 of \d+ done$/)).toBeVisible();
});

test('two people tick at once and nothing is lost', async ({ page, served, browser }) => {
  const other = await (await browser.newContext()).newPage();
  await open(page, served, 'today');
  await open(other, served, 'today');
  await Promise.all([
    page.getByRole('button', { name: mix }).click(),
    other.getByRole('button', { name: mix }).click(),
  ]);
  await Promise.all([
    page.getByRole('button', { name: water }).click(),
    other.getByRole('button', { name: /^Done: Take the water dish out of Tub A 02/ }).click(),
  ]);
  await expect(page.getByText(/^3 of \d+ done$/)).toBeVisible();
  await expect(other.getByText(/^3 of \d+ done$/)).toBeVisible();
  await expect(page.getByText(/refused/)).toHaveCount(0);
});

test('a sighting is reported by keyboard alone', async ({ page, served }) => {
  await open(page, served);
  const press = async (name: string | RegExp, key = 'Enter'): Promise<void> => {
    const target = page
      .getByRole('main')
      .getByRole(key === 'Enter' ? 'link' : 'button', { name })
      .first();
    for (let tabs = 0; tabs < 80; tabs += 1) {
      if (await target.evaluate((element) => element === document.activeElement)) break;
      await page.keyboard.press('Tab');
    }
    await expect(target).toBeFocused();
    await page.keyboard.press(key);
  };
  await press('Report a sighting');
  await expect(page.getByRole('heading', { name: 'Report a sighting' })).toBeFocused();
  await press(/Tub A 05/, 'Space');
  await press('One', 'Space');
  await press('On the paper', 'Space');
  await expect(page.getByRole('heading', { name: 'Tonight', exact: true })).toBeFocused();
});
