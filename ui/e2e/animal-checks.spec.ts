// The page of an animal begins with what it needs today; checks begin with which tubs and why.
import { answerOf, countOf, expect, long, look, open, settled, test, told } from './served';
import { readQuickly } from './words-in-view';

test.describe('with a plan', () => {
  test.use({ collection: 'adopted' });

  test('an animal begins with what it needs today, every form closed', async ({ page, served }, info) => {
    const { tasks } = await answerOf(page, served, 'worklist');
    const task = tasks.find((one) => one.animals.includes('ada') && one.state === 'open');
    await open(page, served, 'animal/ada');
    await expect(page.getByRole('region', { name: 'Today it needs' })).toContainText(task?.text ?? 'no task');
    await expect(page.getByLabel('Weight, g')).toBeHidden();
    await readQuickly(page, info, 'an animal');
    await look(page, info, 'animal-1');
    // Nothing is chosen for anybody.
    await page.getByText('Condition', { exact: true }).last().click();
    await expect(page.getByRole('button', { name: 'Record condition' })).toBeDisabled();
    await page.getByRole('link', { name: 'One tub at a time' }).click();
    await expect(page.locator('main[data-place="#/tub"]')).toBeVisible();
  });

  test('the tubs of today’s list are the ones to check, until they are answered', async ({
    page,
    served,
  }, info) => {
    const { tasks } = await answerOf(page, served, 'worklist');
    const checks = tasks.filter((one) => one.kind === 'check' && one.state === 'open');
    await open(page, served, 'checks');
    const head = page.locator('.foremost');
    await expect(head.getByRole('heading', { name: /^Check (this|these \d+) tubs? / })).toBeVisible(long);
    if (checks.length > 0) await expect(head).toContainText(`Check these ${checks.length} tubs today`);
    await settled(page);
    await readQuickly(page, info, 'checks');
    await look(page, info, 'checks-1');
  });
});

test('without a list it says which tubs would tell most, and why', async ({ page, served }, info) => {
  await open(page, served, 'checks');
  const head = page.locator('.foremost');
  await expect(head.getByRole('heading', { name: /^Check (this tub|these \d tubs) / })).toBeVisible(long);
  await expect(head.getByText('They would tell most.')).toBeVisible();
  const count = await head.getByRole('listitem').count();
  await settled(page);
  await look(page, info, 'checks-2');
  await head.getByRole('link', { name: 'Record what you saw' }).click();
  await page.getByRole('radio', { name: 'None', exact: true }).check();
  await page.getByRole('button', { name: /^Put .* on record$/ }).click();
  if (count > 1) await page.getByRole('button', { name: 'Yes, all of them' }).click();
  await told(page, /^\d+ checks? (is|are) on record\./);
});

test('a name and a kind are put right, and back', async ({ page, served }) => {
  await open(page, served, 'animal/ada');
  await page.getByText('Its name or kind is wrong').click();
  await page.getByLabel('Its name is').fill('Adana');
  await page.getByRole('button', { name: 'Put it right' }).click();
  await told(page, /^Adana is put right\./);
  await expect(page.getByRole('heading', { name: 'Adana', level: 1 })).toBeVisible();
  const before = (await answerOf(page, served, 'collection')).animals.length;
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect(page.getByRole('heading', { name: 'Ada', level: 1, exact: true })).toBeVisible();
  expect((await answerOf(page, served, 'collection')).animals.length).toBe(before);
});

test('several are weighed at once, each with its own weight', async ({ page, served }) => {
  const { animals } = await answerOf(page, served, 'collection');
  const two = animals.filter((one) => one.weight !== null).slice(0, 2);
  const before = await countOf(page, served, 'weighed');
  await open(page, served, 'collection');
  for (const one of two) await page.getByLabel(`Choose ${one.name}`, { exact: true }).check();
  const grams = two.map((one) => Math.round((one.weight?.mass_g ?? 0) * 1.1) + 1);
  for (const [index, one] of two.entries())
    await page.getByLabel(`Weight of ${one.name}, g`).fill(String(grams[index]));
  await page.getByRole('button', { name: 'Record weight' }).click();
  await told(page, /^Weighed: /);
  expect(await countOf(page, served, 'weighed')).toBe(before + 2);
  const after = (await answerOf(page, served, 'collection')).animals;
  expect(two.map((one) => after.find((now) => now.animal === one.animal)?.weight?.mass_g)).toEqual(grams);
});
