// Today, one tub at a time: read once, done with one key, left out, answered, taken back, also without a connection.
import type { Page } from '@playwright/test';
import type { Task } from '../src/contract/answers';
import { answerOf, countOf, expect, look, open, test, type Served } from './served';
import { readQuickly } from './words-in-view';

test.use({ collection: 'adopted' });

const read = (page: Page) => page.getByRole('button', { name: 'I have read this' });
const key = (page: Page) =>
  page.getByRole('button', { name: /^(Tub done|Done$|Next$|First say what you saw)/ });

/** Reads what holds all day, until the first tub is there. */
async function begin(page: Page, served: Served): Promise<void> {
  await open(page, served, 'tub');
  await expect(read(page).or(key(page))).toBeVisible();
  while (await read(page).isVisible()) await read(page).click();
  await expect(key(page)).toBeVisible();
}

const tasksOf = async (page: Page, served: Served): Promise<Task[]> =>
  (await answerOf(page, served, 'worklist')).tasks.filter((task) => task.kind !== 'hygiene');

/** A tub that is worked on, and not the first of the way: whatever the plan of the day is. */
async function tubOf(page: Page, served: Served): Promise<{ enclosure: string; name: string }> {
  const isStep = (task: Task): boolean => task.enclosure !== null && task.kind !== 'check';
  const tasks = (await tasksOf(page, served)).filter(isStep);
  const task = tasks.find((one) => one.enclosure !== tasks[0]?.enclosure);
  const { enclosures } = await answerOf(page, served, 'collection');
  const found = enclosures.find((one) => one.enclosure === task?.enclosure);
  if (!found) throw new Error('no second tub has work today');
  return found;
}

/** Goes on until the place is shown. */
async function goTo(page: Page, name: string): Promise<void> {
  const here = page.getByRole('heading', { level: 1 });
  for (let most = 60; most > 0 && (await here.innerText()) !== name; most -= 1) {
    const before = await here.innerText();
    await page.keyboard.press('ArrowRight');
    await expect(here).not.toHaveText(before);
  }
  await expect(here).toHaveText(name);
}

test('warnings are read once, a tub is done with one key, and taken back as one', async ({
  page,
  served,
}, info) => {
  await open(page, served, 'tub');
  await expect(read(page).or(key(page))).toBeVisible();
  await readQuickly(page, info, 'before the first tub');
  await look(page, info, 'tub-1-read');
  await begin(page, served);
  await page.reload();
  await expect(key(page)).toBeVisible();
  await expect(read(page)).toHaveCount(0);

  const tub = await tubOf(page, served);
  await goTo(page, tub.name);
  await readQuickly(page, info, 'a tub');
  await look(page, info, 'tub-2');
  const here = (await tasksOf(page, served)).filter((task) => task.enclosure === tub.enclosure);
  const check = here.some((task) => task.kind === 'check');
  if (check) await page.getByRole('button', { name: /^None seen: / }).click();
  const ticked = here.filter((task) => task.kind !== 'check');
  await key(page).click();
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText(tub.name);
  const states = async (): Promise<string[]> =>
    (await tasksOf(page, served))
      .filter((task) => task.enclosure === tub.enclosure)
      .map((task) => task.state);
  await expect.poll(states).toEqual(here.map(() => 'done'));
  // In their order.
  const { done } = await answerOf(page, served, 'collection');
  const entries = ticked.map((task) => done.find((one) => one.task === task.key)?.entry ?? 0);
  expect(entries).toEqual([...entries].sort((a, b) => a - b));
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect.poll(states).toEqual(here.map((task) => (task.kind === 'check' ? 'done' : 'open')));
});

test('a step that is left out stays open', async ({ page, served }) => {
  await begin(page, served);
  const tub = await tubOf(page, served);
  await goTo(page, tub.name);
  const here = (await tasksOf(page, served)).filter((task) => task.enclosure === tub.enclosure);
  const check = here.some((task) => task.kind === 'check');
  if (check) {
    await expect(key(page)).toBeDisabled();
    await page.getByRole('button', { name: /^None seen: / }).click();
  }
  const steps = here.filter((task) => task.kind !== 'check');
  const last = steps.at(-1);
  await page.getByRole('button', { name: `Leave out for now: ${last?.text}` }).click();
  await expect(key(page)).toHaveText(
    steps.length > 1 ? `Tub done: ${steps.length - 1} of ${steps.length} steps` : 'Next',
  );
  await key(page).click();
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText(tub.name);
  await expect.poll(() => countOf(page, served, 'task-done')).toBe(here.length - 1);
  const after = (await tasksOf(page, served)).filter((task) => task.enclosure === tub.enclosure);
  expect(after.find((task) => task.key === last?.key)?.state).toBe('open');
});

test('two quick taps are one: the tub that comes next is not done unread', async ({ page, served }) => {
  await begin(page, served);
  const before = await page.getByRole('heading', { level: 1 }).innerText();
  const first = (await tasksOf(page, served))[0];
  const box = await key(page).boundingBox();
  if (!box) throw new Error('no key');
  await page.mouse.dblclick(box.x + box.width / 2, box.y + box.height / 2);
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText(before);
  const of = (await tasksOf(page, served)).filter(
    (task) => task.enclosure === first?.enclosure && task.room === first?.room,
  );
  await expect.poll(() => countOf(page, served, 'task-done')).toBeGreaterThan(0);
  expect(await countOf(page, served, 'task-done')).toBeLessThanOrEqual(of.length);
});

test('a tub done without a connection is kept and sent later', async ({ page, served }) => {
  await begin(page, served);
  await page.route('**/api/tick', (route) => route.abort());
  await key(page).click();
  await expect(page.getByText(/waits? to be sent/)).toBeVisible();
  expect(await countOf(page, served, 'task-done')).toBe(0);
  await page.reload();
  await page.unrouteAll({ behavior: 'wait' });
  await expect.poll(() => countOf(page, served, 'task-done')).toBeGreaterThan(0);
  await expect(page.getByText(/waits? to be sent/)).toHaveCount(0);
});

test('amounts are told in squirts of the bottle once it was counted', async ({ page, served }, info) => {
  await open(page, served, 'mix');
  await page.getByLabel('Squirts counted').fill('25');
  await page.getByLabel(/^They filled/).fill('20');
  await open(page, served, 'today');
  const sprayed = (await tasksOf(page, served)).find(
    (task) => task.amount_ml !== null && task.kind !== 'mix',
  );
  if (sprayed?.amount_ml == null) throw new Error('nothing is sprayed');
  // By hand: 20 mL in 25 squirts are 0.8 mL each; whole squirts, never more than the amount.
  const number = Math.floor(sprayed.amount_ml / 0.8);
  await expect(page.getByText(`${number} squirts (rounded down, `).first()).toBeVisible();
  await look(page, info, 'tub-3-squirts');
});
