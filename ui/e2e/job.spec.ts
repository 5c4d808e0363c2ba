// The whole job, from a sighting to the end of a quarantine, as a keeper goes through it.
import { expect, long, look, open, settled, test, told } from './served';

test('from a sighting to release', async ({ page, served }, info) => {
  await test.step('three taps report a sighting and show who is exposed', async () => {
    await open(page, served);
    await page.getByRole('link', { name: 'Report a sighting' }).first().click();
    await page.getByRole('searchbox').fill('Rufus');
    await page.getByRole('button', { name: /Tub A 07|Rufus/ }).click();
    await page.getByRole('button', { name: '2 to 10' }).click();
    await page.getByRole('button', { name: 'In the water' }).click();
    await expect(page.getByRole('heading', { name: 'Tonight', exact: true })).toBeFocused();
    await expect(page.getByRole('heading', { name: /Mites were seen in .*, / })).toBeVisible();
    await expect(page.getByRole('heading', { name: 'Who may have been reached' })).toBeVisible();
    await look(page, info, 'job-1-tonight');
  });

  await test.step('a plan is searched for, looked at and adopted', async () => {
    await page.getByRole('link', { name: 'Work out the plans' }).click();
    await expect(page.getByRole('heading', { name: 'Recommended', exact: true })).toBeVisible(long);
    await page.getByText('Day by day, and who is left out').click();
    await expect(page.getByRole('heading', { name: 'Who is left out, and why' })).toBeVisible();
    await expect(page.getByRole('img', { name: /Chance that no mite is alive/ })).toBeVisible(long);
    await settled(page);
    await look(page, info, 'job-2-plans');
    if (info.project.name.startsWith('desk')) {
      await page.getByText('What if', { exact: true }).click();
      await page.getByRole('button', { name: 'Only where mites were seen' }).click();
      const compared = page.getByRole('region', { name: 'Side by side' });
      await expect(compared.getByRole('row', { name: /Only where mites were seen/ })).toBeVisible(long);
      await settled(page);
      await look(page, info, 'job-2-what-if');
      await compared.getByRole('button', { name: 'Show: As usual' }).click();
    }
    // Who goes on while the answer takes its time is not called back by it.
    let letThrough: () => void = () => {};
    const held = new Promise<void>((resolve) => (letThrough = resolve));
    await page.route('**/api/adopt', async (route) => {
      await held;
      await route.continue();
    });
    await page.getByRole('button', { name: 'Adopt: Recommended' }).click();
    await open(page, served, 'evidence');
    letThrough();
    await told(page, /The plan is adopted/);
    await expect(page.locator('main[data-place="#/evidence"]')).toBeVisible();
  });

  await test.step('the adopted plan is printed with what is done in each box', async () => {
    await open(page, served, 'print/plan');
    await expect(page.getByRole('row', { name: /^Tub A 03/ })).toContainText('no spray: paper only');
    await expect(page.getByRole('heading', { name: 'Who is left out, and why' })).toBeVisible();
    await look(page, info, 'job-2-print');
    // A browser that never saw the plan chosen prints the very same boxes.
    const other = await page.context().browser()?.newContext();
    const elsewhere = await other?.newPage();
    if (!other || !elsewhere) throw new Error('no second browser');
    await open(elsewhere, served, 'print/plan');
    const boxes = page.getByRole('table').first();
    await expect(elsewhere.getByRole('table').first()).toHaveText((await boxes.textContent()) ?? '');
    await other.close();
    await open(page, served, 'today');
  });

  await test.step('tasks are ticked, skipped and taken back', async () => {
    await expect(page.getByRole('heading', { name: 'Today', exact: true })).toBeFocused();
    const first = page.getByRole('button', { name: /^Done: Mix/ });
    await first.click();
    await expect(page.getByText(/^1 of \d+ done$/)).toBeVisible();
    await expect(first).toHaveAttribute('aria-pressed', 'true');
    await expect(first).toBeFocused();
    await first.click();
    await page.getByRole('button', { name: /^More about: Take the water dish out of Tub A 01/ }).click();
    await page.getByRole('button', { name: 'Skip with a reason' }).click();
    await page.getByRole('button', { name: 'No time' }).click();
    await page.getByRole('button', { name: 'Skip it' }).click();
    await expect(page.getByText(/^2 of \d+ done$/)).toBeVisible();
    await page.getByRole('button', { name: 'All', exact: true }).click();
    await expect(page.getByText('Skipped: No time')).toBeVisible();
    // Nothing is sprayed where the dish stays in.
    await expect(page.getByRole('button', { name: /^Done: Spray paper and walls of Tub A 01/ })).toHaveCount(
      0,
    );
    // One tap opens it: the list does not move under the finger.
    await page.getByText(/^Passed over today/).click();
    await expect(page.getByRole('group').filter({ hasText: /^Passed over today/ })).toHaveAttribute('open');
    await expect(page.getByText(/the water dish is still in/).first()).toBeVisible();
    await look(page, info, 'job-3-today');
    await page.getByRole('button', { name: /^More about: Mix/ }).click();
    await page.getByRole('button', { name: 'Take back' }).click();
    await expect(page.getByText(/^1 of \d+ done$/)).toBeVisible();
  });

  await test.step('a batch is mixed and put on record', async () => {
    await page.getByRole('link', { name: 'Mix', exact: true }).click();
    const label = page.getByRole('button', { name: 'The label says 10 mg/mL' });
    await expect(label).toBeDisabled();
    await page.getByLabel('What is in the bottle?').selectOption('A pour-on');
    await expect(page.getByRole('alert')).toHaveText(/Ask a veterinarian/);
    await expect(label).toBeDisabled();
    await page.getByLabel('What is in the bottle?').selectOption('plain');
    await label.click();
    await expect(page.getByText('Within the published range.')).toBeVisible();
    await page.getByLabel('How much to make', { exact: true }).fill('500');
    await page.getByLabel('How much to make: Unit').selectOption('mL');
    await expect(page.getByText('Fill up with water to 500 mL.')).toBeVisible();
    await look(page, info, 'job-4-mix');
    await page.getByLabel('Strength wanted').fill('200');
    await expect(page.getByText(/^Stronger than published/)).toBeVisible();
    await page.getByRole('button', { name: 'I have read this: show the steps' }).click();
    await page.getByRole('button', { name: 'Put the batch on record' }).click();
    await expect(page.getByRole('heading', { name: '20 times the strongest published spray' })).toBeVisible();
    await expect(page.getByRole('button', { name: 'Put it on record all the same' })).toBeDisabled();
    await page.getByRole('button', { name: 'Mix it weaker' }).click();
    await page.getByLabel('Strength wanted').fill('10');
    await expect(page.getByText('Within the published range.')).toBeVisible();
    await page.getByRole('button', { name: 'Put the batch on record' }).click();
    await expect(page.getByRole('heading', { name: 'b-1' })).toBeVisible();
    await expect(page.getByText('In date')).toBeVisible();
    await look(page, info, 'job-5-batches');
  });

  await test.step('an animal that reacts is left out from then on', async () => {
    await page.getByRole('link', { name: 'Today', exact: true }).click();
    await page.getByRole('link', { name: 'As a list' }).click();
    await page.getByRole('button', { name: /^More about: (Mist|Soak) Bruno/ }).click();
    await page.getByRole('button', { name: 'The animal reacted' }).click();
    await page.getByLabel('What you saw').fill('limp');
    await page.getByRole('button', { name: 'Put on record' }).click();
    await expect(page.getByText(/Bruno: reaction on record/)).toBeVisible();
    await expect(page.getByRole('heading', { name: 'Bruno reacted' })).toBeVisible();
    await expect(page.getByText(/Rinse with lukewarm water/)).toBeVisible();
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).last().click();
    await expect(page.getByRole('button', { name: /^Done: (Mist|Soak) Bruno/ })).toHaveCount(0);
    // Whether or not the plan sprays: no spray for an animal that reacted.
    await page.getByRole('link', { name: 'Plan', exact: true }).click();
    await page.getByRole('link', { name: 'Who may be given what' }).click();
    const spray = page
      .getByRole('row', { name: /^Bruno/ })
      .getByRole('button')
      .first();
    await expect(spray).toBeVisible();
    await expect(spray).not.toHaveAccessibleName(/allowed/i);
  });

  await test.step('clean checks are recorded and tell how sure we are', async () => {
    await page.getByRole('link', { name: 'Checks', exact: true }).click();
    await page.getByRole('button', { name: 'Choose the enclosures of the plan' }).click();
    const save = page.getByRole('button', { name: /^Put \d+ checks on record$/ });
    await expect(save).toBeDisabled();
    await page.getByRole('radio', { name: 'Looked over' }).check();
    await page.getByRole('radio', { name: 'None' }).check();
    await save.click();
    await expect(page.getByText(/^You looked over \d+ enclosures yourself today/)).toBeVisible();
    await page.getByRole('button', { name: 'Yes, all of them' }).click();
    await told(page, /\d+ checks are on record/);
    await look(page, info, 'job-6-checks');
    await page.getByRole('link', { name: 'How sure' }).click();
    await expect(page.getByRole('heading', { name: 'When it will be over' })).toBeVisible(long);
    await settled(page);
    await look(page, info, 'job-7-how-sure');
  });

  await test.step('the quarantine of Otto ends', async () => {
    await page.getByRole('link', { name: 'Release' }).click();
    await page.getByRole('button', { name: 'End the quarantine of Otto' }).click(long);
    await expect(page.getByRole('heading', { name: 'End the quarantine of Otto early?' })).toBeVisible();
    await expect(page.getByRole('button', { name: 'End it early' })).toBeDisabled();
    await page.getByLabel('Why it ends early all the same').fill('Its course of checks began elsewhere');
    await page.getByRole('button', { name: 'End it early' }).click();
    await told(page, /The quarantine of Otto has ended\./);
    await expect(page.getByRole('heading', { level: 1 })).toBeFocused();
    await expect(page.getByText('No animal is in quarantine.')).toBeVisible();
    await look(page, info, 'job-8-released');
  });
});
