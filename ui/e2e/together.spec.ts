// Two people, a lost connection, and hands that only use the keyboard.
import type { Page } from '@playwright/test';
import { countOf, expect, open, test, told } from './served';

test.use({ collection: 'adopted' });

const mix = /^Done: Mix/;
const water = /^Done: Take the water dish out of Tub A 01/;

/** What is sent comes to the server; its answer never comes back. */
const loseAnswers = (page: Page, url: string): Promise<void> =>
  page.route(url, async (route) => {
    await route.fetch();
    // The page may have been left meanwhile.
    await route.abort().catch(() => undefined);
  });

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
  await page.unrouteAll({ behavior: 'wait' });
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
  await page.unrouteAll({ behavior: 'wait' });
  await expect(page.getByText(/waits to be sent/)).toHaveCount(0);
  await expect(page.getByRole('button', { name: /^Done: (Mist|Soak) Ada/ })).toHaveCount(0);
});

test('a second tap leaves it done; taking back has a key of its own', async ({ page, served }) => {
  await open(page, served, 'today');
  const tub = page.getByRole('button', { name: water });
  await tub.dblclick();
  await expect(tub).toHaveAttribute('aria-pressed', 'true');
  await expect(page.getByText(/^1 of \d+ done$/)).toBeVisible();
  await expect.poll(() => countOf(page, served, 'task-done')).toBe(1);
  await tub.click();
  await expect(tub).toHaveAttribute('aria-pressed', 'true');
  await page.getByRole('button', { name: /^More about: Take the water dish out of Tub A 01/ }).click();
  await page.getByRole('button', { name: 'Take back' }).click();
  await expect(tub).toHaveAttribute('aria-pressed', 'false');
  await expect(page.getByText(/^0 of \d+ done$/)).toBeVisible();
  expect(await countOf(page, served, 'task-done')).toBe(1);
});

test('a lost connection is said, and what was missed is caught up with', async ({
  page,
  served,
  context,
  another,
}) => {
  await open(page, served, 'today');
  await expect(page.getByRole('button', { name: mix })).toBeVisible();
  await context.setOffline(true);
  await page.getByRole('button', { name: mix }).click();
  await expect(page.getByText('1 tick waits to be sent.')).toBeVisible();
  const elsewhere = await another();
  await open(elsewhere, served, 'today');
  await elsewhere.getByRole('button', { name: water }).click();
  await expect(elsewhere.getByText(/^1 of \d+ done$/)).toBeVisible();
  await context.setOffline(false);
  await expect(page.getByText(/^2 of \d+ done$/)).toBeVisible();
  await expect(elsewhere.getByText(/^2 of \d+ done$/)).toBeVisible();
});

test('two people tick at once and nothing is lost', async ({ page, served, another }) => {
  const other = await another();
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
  expect(await countOf(page, served, 'task-done')).toBe(3);
  expect(await countOf(page, served, 'withdrawn')).toBe(0);
});

test('a tap on what somebody else has just done leaves it done', async ({ page, served, another }) => {
  const other = await another();
  await open(page, served, 'today');
  await open(other, served, 'today');
  await page.getByRole('button', { name: mix }).click();
  // Seen done: the tap is told so and asks for nothing.
  await expect(other.getByRole('button', { name: mix })).toHaveAttribute('aria-pressed', 'true');
  await other.getByRole('button', { name: mix }).click();
  await told(other, /Done already: Mix/);
  // Seen open: this screen has not heard of the other's tick when it is tapped.
  await other.route('**/api/worklist', (route) => route.abort());
  await page.getByRole('button', { name: water }).click();
  await expect(page.getByText(/^2 of \d+ done$/)).toBeVisible();
  await expect.poll(() => countOf(page, served, 'task-done')).toBe(2);
  await expect(other.getByRole('button', { name: water })).toHaveAttribute('aria-pressed', 'false');
  await other.getByRole('button', { name: water }).click();
  await told(other, /Done already, .*: Take the water dish out of Tub A 01/);
  await expect(other.getByRole('button', { name: water })).toHaveAttribute('aria-pressed', 'true');
  await expect(other.getByText(/^2 of \d+ done$/)).toBeVisible();
  expect(await countOf(page, served, 'task-done')).toBe(2);
  expect(await countOf(page, served, 'withdrawn')).toBe(0);
  await expect(page.getByText(/^2 of \d+ done$/)).toBeVisible();
});

test('a tap on a task that has become another is refused with both told', async ({
  page,
  served,
  another,
}) => {
  const other = await another();
  await open(other, served, 'today');
  const soak = other.getByRole('button', { name: /^Done: (Mist|Soak) Ada/ });
  await expect(soak).toBeVisible();
  await other.route('**/api/worklist', (route) => route.abort());
  // A sick animal is not soaked without a veterinarian.
  const condition = { animal: 'ada', condition: 'sick', present: true, agent: '', note: '' };
  const facts = [{ kind: 'condition-noted', body: condition }];
  const data = { facts, request: 'request-of-another-device' };
  expect((await page.request.post(`${served.address}/api/record`, { data })).ok()).toBe(true);
  await soak.click();
  await expect(other.getByText('1 tick was refused.')).toBeVisible();
  await expect(other.getByText(/no longer what it was when the list was shown/)).toBeVisible();
  await expect(soak).toHaveAttribute('aria-pressed', 'false');
  expect(await countOf(page, served, 'task-done')).toBe(0);
  await other.getByRole('button', { name: 'Forget it' }).click();
  await expect(other.getByText('1 tick was refused.')).toHaveCount(0);
});

test('a tick whose answer was lost counts once, and can be taken back', async ({ page, served }) => {
  await open(page, served, 'today');
  await loseAnswers(page, '**/api/tick');
  await page.getByRole('button', { name: mix }).click();
  await expect(page.getByText('1 tick waits to be sent.')).toBeVisible();
  await expect.poll(() => countOf(page, served, 'task-done')).toBe(1);
  await page.reload();
  await page.unrouteAll({ behavior: 'wait' });
  await expect(page.getByText(/waits? to be sent/)).toHaveCount(0);
  await expect(page.getByText(/^1 of \d+ done$/)).toBeVisible();
  expect(await countOf(page, served, 'task-done')).toBe(1);

  await loseAnswers(page, '**/api/tick');
  await page.getByRole('button', { name: water }).click();
  await expect.poll(() => countOf(page, served, 'task-done')).toBe(2);
  await page.getByRole('button', { name: /^More about: Take the water dish out of Tub A 01/ }).click();
  await page.getByRole('button', { name: 'Take back' }).click();
  await expect(page.getByText(/^1 of \d+ done$/)).toBeVisible();
  await expect(page.getByText(/waits? to be sent/)).toHaveCount(0);
  expect(await countOf(page, served, 'task-done')).toBe(2);
  expect(await countOf(page, served, 'withdrawn')).toBeGreaterThan(0);
});

test('a sighting whose answer was lost and is told again stands once', async ({ page, served }) => {
  await open(page, served, 'sighting');
  const before = await countOf(page, served, 'sighted');
  await page.getByRole('searchbox').fill('Tub A 05');
  await page.getByRole('button', { name: /^Tub A 05/ }).click();
  await page.getByRole('button', { name: 'One', exact: true }).click();
  await loseAnswers(page, '**/api/record');
  await page.getByRole('button', { name: 'On the paper' }).click();
  await expect(page.getByRole('alert')).toContainText('cannot be reached');
  expect(await countOf(page, served, 'sighted')).toBe(before + 1);
  await page.unrouteAll({ behavior: 'wait' });
  await page.getByRole('button', { name: 'On the paper' }).click();
  await expect(page.getByRole('heading', { name: 'Tonight', exact: true })).toBeVisible();
  expect(await countOf(page, served, 'sighted')).toBe(before + 1);
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
  await expect(page.getByRole('heading', { name: 'How many mites did you see?' })).toBeFocused();
  await press('One', 'Space');
  await expect(page.getByRole('heading', { name: 'Where were they?' })).toBeFocused();
  await press('On the paper', 'Space');
  await expect(page.getByRole('heading', { name: 'Tonight', exact: true })).toBeFocused();
});
