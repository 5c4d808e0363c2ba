// What is left of the practice: whom to ring, who moved out, traps on the list, and the list on paper.
import { run } from './collections';
import { answerOf, expect, look, open, test, told } from './served';

test('the veterinarian is one tap away where an animal is ill', async ({ page, served }, info) => {
  await open(page, served, 'settings');
  await page.getByLabel('Name', { exact: true }).fill('Clinic at the bridge');
  await page.getByLabel('Telephone', { exact: true }).fill('call me');
  await page.getByRole('button', { name: 'Record the veterinarian' }).click();
  await expect(page.getByText(/that is no telephone number/i)).toBeVisible();
  await page.getByLabel('Telephone', { exact: true }).fill('+49 30 1234567');
  await page.getByRole('button', { name: 'Record the veterinarian' }).click();
  await told(page, /^The veterinarian is on record\./);
  run(served.file, 'record', 'signs', 'juno', 'limp');
  for (const screen of ['today', 'animal/juno']) {
    await open(page, served, screen);
    const ring = page.getByRole('link', { name: /^Ring Clinic at the bridge/ }).first();
    await expect(ring).toHaveAttribute('href', 'tel:+49301234567');
    await look(page, info, `practice-1-${screen.startsWith('today') ? 'today' : 'animal'}`);
  }
});

test('other life moves out of a room, and is back', async ({ page, served }, info) => {
  const { rooms, bystanders } = await answerOf(page, served, 'collection');
  const name = bystanders[0]?.name ?? '';
  await open(page, served, `room/${rooms[0]?.room ?? ''}`);
  await page.getByRole('button', { name: `${name} moved out` }).click();
  await told(page, /has moved out\./);
  await look(page, info, 'practice-2-room');
  expect((await answerOf(page, served, 'collection')).bystanders).toHaveLength(bystanders.length - 1);
  await page.getByRole('button', { name: `${name} is back` }).click();
  await expect(page.getByRole('button', { name: `${name} moved out` })).toBeVisible();
});

test.describe('with a plan', () => {
  test.use({ collection: 'adopted' });
  test('the printed list has the steps of each task and what is kept there', async ({
    page,
    served,
  }, info) => {
    const { tasks } = await answerOf(page, served, 'worklist');
    const place = tasks.find((task) => task.enclosure !== null && task.steps.length > 0)?.enclosure ?? '';
    run(served.file, 'record', 'thing', 'hide-9', 'hide', '--enclosure', place);
    await open(page, served, 'print/worklist');
    await expect(page.getByText(/^Kept here: .*hide-9/)).toBeVisible();
    await expect(
      page.getByText('Bare white paper in; only things free of mites go back').first(),
    ).toBeVisible();
    await expect(page.getByText('(steps A)').first()).toBeVisible();
    await look(page, info, 'practice-3-print');
  });
});
