// One outbreak of six weeks, day by day, as the journal below has it: a missed round, a late tick, a find on day 20, a
// reaction, a death, a sale, an arrival, and two telephones. After every day no screen contradicts another (the same
// question has the same number), no task contradicts another, and nothing overdue is unsaid.
import type { Page } from '@playwright/test';
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { program } from './collections';
import { addressesOf, expect, long, look, settled, test } from './served';

const days = 42;
const first = Date.UTC(2026, 2, 2);
const dayOf = (number: number): string => new Date(first + number * 86_400_000).toISOString().slice(0, 10);

interface Band {
  mean: number;
  p10: number;
  p90: number;
}
interface Task {
  key: string;
  kind: string;
  enclosure: string | null;
  method: string | null;
  state: 'open' | 'done' | 'skipped';
}
interface Worklist {
  day: string;
  entry: number;
  tasks: Task[];
  late: { rounds: { planned: string }[]; dishes: { enclosure: string }[] } | null;
}
interface Situation {
  rooms: {
    enclosures: { enclosure: string; name: string; clear: Band | null; water_out_since: string | null }[];
  }[];
  clear: Band | null;
  plan: { adopted: string; rounds: string[] } | null;
  last_sighting: string | null;
}
interface Fact {
  kind: string;
  body: object;
}

const warm = { day_c: 29, night_c: 25, humidity_percent: 60 };
const tubs = ['north-1', 'north-2', 'south-1', 'south-2'];
const animals = [
  ['ivo', 'north-1', 620],
  ['runa', 'north-2', 540],
  ['sela', 'north-1', 480],
  ['yara', 'south-1', 450],
] as const;

/** What is on record before the first day. */
const before: Fact[] = [
  ...['north', 'south'].map((room) => ({
    kind: 'room-added',
    body: { room, name: `The ${room} room`, ...warm, adjoining: [], floor_cm2: 90_000 },
  })),
  ...tubs.map((enclosure) => ({
    kind: 'enclosure-added',
    body: {
      enclosure,
      name: `Tub ${enclosure}`,
      room: enclosure.replace(/-\d$/, ''),
      material: 'sealed',
      substrate: 'loose',
      ...warm,
      floor_cm2: 4000,
    },
  })),
  ...animals.map(([animal, enclosure]) => ({
    kind: 'animal-arrived',
    body: {
      animal,
      name: animal[0]?.toUpperCase() + animal.slice(1),
      taxon: 'corn snake',
      origin: 'bred here',
      enclosure,
      quarantine: false,
    },
  })),
  ...animals.map(([animal, , mass_g]) => ({ kind: 'weighed', body: { animal, mass_g } })),
];

/** What happens beside the day's work. */
const journal: Record<number, Fact[]> = {
  24: [
    {
      kind: 'condition-noted',
      body: { animal: 'runa', condition: 'reacted', present: true, agent: 'ivermectin', note: 'limp' },
    },
  ],
  27: [{ kind: 'animal-left', body: { animal: 'sela', reason: 'died' } }],
  29: [{ kind: 'animal-left', body: { animal: 'yara', reason: 'sold' } }],
  31: [
    {
      kind: 'animal-arrived',
      body: {
        animal: 'odo',
        name: 'Odo',
        taxon: 'corn snake',
        origin: 'from a breeder',
        enclosure: 'south-2',
        quarantine: true,
      },
    },
  ],
};

/** The program on this file, on one day after another at the same address. */
class House {
  readonly folder = mkdtempSync(join(tmpdir(), 'mitefall-outbreak-'));
  readonly file = join(this.folder, 'house.mitefall');
  address = '';
  private server: ChildProcess | null = null;
  private requests = 0;

  run(day: string, ...words: string[]): string {
    return execFileSync(program, ['-f', this.file, '--today', day, ...words], { encoding: 'utf8' });
  }

  async open(day: string): Promise<void> {
    await this.close();
    const port = this.address.split(':').pop() || '0';
    const words = ['-f', this.file, '--today', day, 'serve', '--port', port];
    this.server = spawn(program, words, { stdio: ['ignore', 'pipe', 'inherit'] });
    [this.address = ''] = await addressesOf(this.server, 1);
  }

  async close(): Promise<void> {
    const server = this.server;
    this.server = null;
    if (!server) return;
    const ended = new Promise((resolve) => server.on('exit', resolve));
    server.kill();
    await ended;
  }

  async get<T>(page: Page, path: string): Promise<T | null> {
    const answer = await page.request.get(`${this.address}/api/${path}`);
    if (answer.status() === 404) return null;
    expect(answer.status(), path).toBe(200);
    return ((await answer.json()) as { result: T }).result;
  }

  /** Posts what writes, each with a key of its own; gives the status. */
  async post(page: Page, path: string, body: object): Promise<number> {
    this.requests += 1;
    const request = `outbreak-request-${this.requests}`;
    const answer = await page.request.post(`${this.address}/api/${path}`, { data: { ...body, request } });
    return answer.status();
  }

  /** Says yes to whatever is asked first. */
  async record(page: Page, facts: Fact[]): Promise<number> {
    const dry = await page.request.post(`${this.address}/api/record`, { data: { facts, dry_run: true } });
    const { result } = (await dry.json()) as { result?: { asks?: { key: string }[] } };
    return this.post(page, 'record', { facts, acknowledged: (result?.asks ?? []).map((ask) => ask.key) });
  }

  async job<T>(page: Page, kind: string): Promise<T> {
    interface Job {
      job: string;
      state: string;
      result: T;
      error: unknown;
    }
    const asked = await page.request.post(`${this.address}/api/jobs`, { data: { kind, options: {} } });
    const { result } = (await asked.json()) as { result: Job };
    let job = result;
    await expect
      .poll(async () => {
        job = (await this.get<Job>(page, `jobs/${result.job}`)) ?? job;
        return job.state;
      }, long)
      .toMatch(/done|failed/);
    expect(job.error, kind).toBeNull();
    return job.result;
  }
}

/** The figure that stands under this label. */
const bigAt = (page: Page, label: string) => page.locator(`p:text-is("${label}") + p.big`);

async function show(page: Page, house: House, place: string): Promise<void> {
  await page.goto(`${house.address}/#/${place}`);
  await expect(page.locator(`main[data-place="#/${place}"]`)).toBeVisible();
}

/** The same question has the same number: in both programs, every job, and on the screens. */
async function numbersAgree(page: Page, house: House, day: string, everywhere: boolean): Promise<void> {
  const before = await house.get<Situation>(page, 'situation');
  if (!before?.last_sighting) return;
  type Sure = { clear: Band };
  interface Clear {
    collection: Sure;
    places: { enclosures: string[]; sure: Sure }[];
    outlook: { points: { checked: Sure }[] };
  }
  const clear = await house.job<Clear>(page, 'clear');
  const now = (await house.get<Situation>(page, 'situation')) ?? before;
  expect(now.clear, `${day}: the situation`).toEqual(clear.collection.clear);
  expect(clear.outlook.points[0]?.checked.clear, `${day}: the outlook begins today`).toEqual(
    clear.collection.clear,
  );
  for (const place of clear.places) {
    for (const tub of now.rooms.flatMap((room) => room.enclosures)) {
      if (place.enclosures.includes(tub.enclosure))
        expect(tub.clear, `${day}: ${tub.enclosure}`).toEqual(place.sure.clear);
    }
    // What holds for everything cannot be surer than what holds for a part.
    expect(place.sure.clear.mean, day).toBeGreaterThanOrEqual(clear.collection.clear.mean - 1e-9);
  }
  if (now.last_sighting === day) expect(now.clear?.p90, `${day}: seen today is there today`).toBe(0);
  if (now.plan) {
    const course = await house.job<{ clear: Band[] }>(page, 'course');
    expect(course.clear[0], `${day}: the curve of the plan`).toMatchObject({ ...clear.collection.clear });
  }
  await show(page, house, '');
  await page.getByText('The numbers', { exact: true }).click();
  const told = bigAt(page, 'Chance that no mite is left today');
  await expect(told).toBeVisible(long);
  const said = await told.innerText();
  if (!everywhere) return;
  await show(page, house, 'checks/sure');
  await expect(bigAt(page, 'Chance that no mite is left today')).toHaveText(said, long);
  const shell = JSON.parse(house.run(day, '--json', 'clear')) as { result: typeof clear };
  expect(shell.result.collection.clear, `${day}: on the command line`).toEqual(clear.collection.clear);
}

/** Nothing is sprayed or wetted with the dish in, whatever order a keeper is led through. */
function tasksAgree(list: Worklist, now: Situation): void {
  const out = new Map(
    now.rooms.flatMap((room) => room.enclosures).map((tub) => [tub.enclosure, tub.water_out_since !== null]),
  );
  for (const task of list.tasks.filter((one) => one.state === 'open' && one.enclosure)) {
    const tub = task.enclosure ?? '';
    if (task.kind === 'water-out') {
      expect(out.get(tub), `${list.day}: ${task.key} is out already`).toBe(false);
      out.set(tub, true);
    }
    if (task.kind === 'water-back') {
      expect(out.get(tub), `${list.day}: ${task.key} is in already`).toBe(true);
      out.set(tub, false);
    }
    const wets =
      task.kind === 'redampen' || task.method === 'spray-animal' || task.method === 'spray-bedding';
    if (wets) expect(out.get(tub), `${list.day}: ${task.key} with the dish in`).toBe(true);
  }
  const keys = list.tasks.map((task) => task.key);
  expect(new Set(keys).size, `${list.day}: each task once`).toBe(keys.length);
}

/** By this test's own reckoning: rounds gone by with nothing done, dishes out since before the third day. */
async function overdueIsSaid(page: Page, house: House, list: Worklist | null, now: Situation): Promise<void> {
  const day = list?.day ?? '';
  const collection = await house.get<{ done: { task: string }[]; animals: { enclosure: string }[] }>(
    page,
    'collection',
  );
  const touched = (round: string): boolean =>
    collection?.done.some((one) => one.task.startsWith(round)) ?? false;
  const missed = (now.plan?.rounds ?? []).filter((round) => round < day && !touched(round));
  for (const round of missed)
    expect(
      list?.late?.rounds.map((one) => one.planned),
      `${day}: ${round} was missed`,
    ).toContain(round);
  const since = (date: string): number => (Date.parse(day) - Date.parse(date)) / 86_400_000;
  const thirsty = now.rooms
    .flatMap((room) => room.enclosures)
    .filter((tub) => collection?.animals.some((animal) => animal.enclosure === tub.enclosure))
    .filter((tub) => tub.water_out_since !== null && since(tub.water_out_since) > 3);
  for (const tub of thirsty)
    expect(
      list?.late?.dishes.map((one) => one.enclosure),
      `${day}: ${tub.enclosure}`,
    ).toContain(tub.enclosure);
  for (const place of ['', 'today']) {
    await show(page, house, place);
    await expect(page.locator('h1')).toBeVisible();
    await expect(page.getByRole('region', { name: 'Late' })).toHaveCount(list?.late ? 1 : 0);
    if (thirsty.length > 0) await expect(page.getByRole('alert').first()).toBeVisible();
  }
}

/** Does what the list asks for, `most` tasks at most: the first with a thumb, the others by the same request. */
async function work(page: Page, house: House, most = Infinity): Promise<number> {
  let done = 0;
  for (let again = true; again;) {
    again = false;
    const list = await house.get<Worklist>(page, 'worklist');
    for (const task of list?.tasks ?? []) {
      if (task.state !== 'open' || task.kind === 'hygiene' || done >= most) continue;
      const answer = task.kind === 'check' ? { found: 'none' } : {};
      const body = { key: task.key, day: list?.day, seen: list?.entry, ...answer };
      const status = await house.post(page, 'tick', body);
      expect([200, 409], `${task.key}: ${status}`).toContain(status);
      if (status === 409) continue; // it has become another task; the next list tells which
      done += 1;
      again = true;
    }
  }
  return done;
}

async function adoptRecommended(page: Page, house: House): Promise<void> {
  await show(page, house, 'plan/choose');
  await page.getByRole('button', { name: 'Adopt: Recommended' }).click(long);
  await expect(page.locator('main[data-place="#/today"]')).toBeVisible(long);
}

async function reportSighting(page: Page, house: House, tub: string, count: string): Promise<void> {
  await show(page, house, 'sighting');
  await page.getByRole('searchbox').fill(tub);
  await page.getByRole('button', { name: new RegExp(tub) }).click();
  await page.getByRole('button', { name: count, exact: true }).click();
  await page.getByRole('button', { name: 'On the animal' }).click();
  await expect(page.getByRole('heading', { name: 'Tonight', exact: true })).toBeFocused();
}

test('six weeks of an outbreak without a contradiction', async ({ page, another }, info) => {
  test.slow();
  const house = new House();
  const second = await another();
  try {
    house.run(dayOf(0), 'new');
    await house.open(dayOf(0));
    for (const fact of before)
      expect(await house.post(page, 'record', { facts: [{ ...fact, day: dayOf(-200) }] })).toBe(200);
    let away: string[] = [];
    let half = '';
    for (let number = 0; number < days; number += 1) {
      const day = dayOf(number);
      if (away.includes(day)) continue; // nobody opens the program
      if (number > 0) await house.open(day);
      if (number === 0) await reportSighting(page, house, 'north-1', '2 to 10');
      if (number === 20) await reportSighting(page, house, 'north-2', 'One');
      if (number === 0 || number === 20) await adoptRecommended(page, house);
      for (const fact of journal[number] ?? [])
        expect(await house.record(page, [fact]), `${day} ${fact.kind}`).toBe(200);

      const now = await house.get<Situation>(page, 'situation');
      const list = await house.get<Worklist>(page, 'worklist');
      if (!now) throw new Error('no situation');
      if (list) tasksAgree(list, now);
      await overdueIsSaid(page, house, list, now);
      // On each day on which something has happened, and every third: on the others nothing is told that was not yesterday.
      const isNews = number % 3 === 0 || Boolean(journal[number]) || (now.plan?.rounds ?? []).includes(day);
      if (isNews || number === 20 || number === 21)
        await numbersAgree(page, house, day, number % 10 === 0 || number === 21);

      const rounds = now.plan?.rounds ?? [];
      if (number === 0) {
        // The second round is missed, with the two days after it.
        const missed = (Date.parse(rounds[1] ?? '') - first) / 86_400_000;
        away = [0, 1, 2].map((later) => dayOf(missed + later));
      }
      if (list?.late && list.late.rounds.length > 0 && !half) {
        await show(page, house, 'today');
        await settled(page);
        await look(page, info, `outbreak-${day}-late`);
        await page.getByRole('button', { name: 'Move the rest' }).click();
        await expect(page.getByRole('region', { name: 'Late' })).toHaveCount(0);
        half = 'moved';
      }
      // Of the next round after that, half is done on its day and half on the day after.
      const begun = half === 'moved' && rounds.includes(day) && number > 0;
      const open = (await house.get<Worklist>(page, 'worklist'))?.tasks.filter((one) => one.state === 'open');
      // Nobody looks at the chances while they work: each tick would have them worked out anew.
      await show(page, house, 'today');
      await show(second, house, 'today');
      await work(page, house, begun ? Math.ceil((open?.length ?? 0) / 2) : Infinity);
      if (begun) half = 'done';
      const after = await house.get<Worklist>(page, 'worklist');
      if (after?.tasks.some((one) => one.kind !== 'hygiene')) {
        const ticked = after.tasks.filter((one) => one.state === 'done' && one.kind !== 'hygiene').length;
        // The other telephone has heard of every tick.
        await show(page, house, 'today');
        for (const one of [page, second])
          await expect(one.locator('p.big:has(+ progress.day)')).toContainText(`${ticked} of `);
      }
      if (number % 7 === 0) {
        await show(page, house, '');
        await settled(page);
        await look(page, info, `outbreak-${day}-situation`);
      }
    }
  } finally {
    await house.close();
    rmSync(house.folder, { recursive: true });
  }
});
