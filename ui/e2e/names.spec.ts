// Names as long and as strange as a collection can hold: no screen grows with them. What is damaged in the collection is
// said on every screen, and can be settled there.
import { execFileSync } from 'node:child_process';
import { run } from './collections';
import { expect, look, open, test, told, type Served } from './served';

const places = [
  ...['', 'sighting', 'today', 'plan', 'mix', 'checks', 'collection', 'evidence', 'settings', 'more'],
  ...['animal/eve', 'enclosure/tub-w', 'room/hall', 'print/enclosures', 'print/worklist'],
];

const record = (served: Served, ...words: string[]): void => run(served.file, 'record', ...words);

/** A row that no program of ours would write. */
function damage(served: Served, kind: string, body: object): void {
  const row = `INSERT INTO fact (day, recorded_at, kind, body) VALUES (date(), '', ?, ?)`;
  const script = `import sqlite3, sys; c = sqlite3.connect(sys.argv[1]); c.execute(sys.argv[2], sys.argv[3:]); c.commit()`;
  execFileSync('python3', ['-c', script, served.file, row, kind, JSON.stringify(body)]);
}

test('no screen is wider for a name of one word of 1,990 letters', async ({ page, served }, info) => {
  const wide = 'W'.repeat(1990);
  const warm = ['--temperature', '28 C', '--floor-cm2', '4000'];
  record(served, 'room', 'hall', '--name', wide, ...warm);
  record(served, 'enclosure', 'tub-w', '--room', 'hall', '--name', wide, ...warm);
  record(served, 'arrival', 'eve', '--enclosure', 'tub-w', '--name', wide, '--kind', wide, '--origin', wide);
  record(served, 'sighting', 'tub-w', '1');
  for (const place of places) {
    await open(page, served, place);
    await expect(page.locator('main')).not.toBeEmpty();
    const widest = await page.evaluate(() => {
      const widths = [...document.querySelectorAll('body *')].map((one) => one.getBoundingClientRect().width);
      return Math.max(document.documentElement.scrollWidth, ...widths);
    });
    // A table may be pushed aside within its frame, by no more than a table of usual names.
    expect(widest, `${place} holds what is in it`).toBeLessThan(1600);
    const beyond = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(beyond, `${place} fits the width of the screen`).toBeLessThanOrEqual(0);
  }
  await open(page, served, 'animal/eve');
  await page.screenshot({ path: info.outputPath('eve.png') });
});

test('a name cannot turn round what stands beside it', async ({ page, served }) => {
  record(served, 'room', 'hall', '--name', 'חדר', '--temperature', '28 C', '--floor-cm2', '90000');
  damage(served, 'enclosure-added', {
    ...{
      enclosure: 'tub-w',
      name: 'Left\u202Ethgir\n',
      room: 'hall',
      material: 'sealed',
      substrate: 'paper',
    },
    ...{ day_c: 28, night_c: 26, humidity_percent: 50, floor_cm2: 4000 },
  });
  await open(page, served, 'enclosure/tub-w');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Leftthgir');
  await expect(page.getByText('\u2068חדר\u2069').first()).toBeVisible();
  await expect(page.getByRole('alert')).toHaveCount(0);
});

test('damage is said on every screen and settled there', async ({ page, served }, info) => {
  await open(page, served);
  await expect(page.getByRole('alert', { name: 'Damage in the collection' })).toHaveCount(0);
  damage(served, 'weighed', { animal: 'ada', mass_g: 'heavy' });
  const said = page.getByRole('alert', { name: 'Damage in the collection' });
  for (const place of ['', 'today', 'collection', 'animal/ada', 'mix']) {
    await open(page, served, place);
    await expect(said.getByText('1 entry is damaged and does not count.')).toBeVisible();
    await expect(said.getByText(/not a number: "heavy"/i)).toBeVisible();
  }
  await look(page, info, 'damage');
  await said.getByRole('button', { name: /^Withdraw entry \d+$/ }).click();
  await page
    .getByRole('dialog')
    .getByRole('button', { name: /^Withdraw entry \d+$/ })
    .click();
  await told(page, /^Withdrawn\./);
  await expect(said).toHaveCount(0);
});
