// How long each screen takes with a thousand enclosures: from the tap that leads there to what is painted, its data at hand.
//   node bench/screens.mjs [FILE]   makes the collection at FILE if there is none; prints a table
import { chromium } from '@playwright/test';
import { execFileSync, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const program = resolve(process.env.MITEFALL_BIN ?? '../build/release/mitefall');
const file = process.argv[2] ?? join(tmpdir(), 'thousand.mitefall');
const rooms = 10;
const tubsOfRoom = 100;
const times = 7;
const places = [
  ['', 'today', 'tub', 'tonight', 'sighting', 'is-it-a-mite', 'ten-minutes'],
  ['plan/now', 'plan/verdicts', 'mix', 'mix/shopping', 'mix/batches', 'cupboard'],
  ['checks', 'checks/record', 'checks/release', 'checks/out', 'evidence', 'settings', 'more'],
  ['collection', 'collection/enclosures', 'collection/add', 'collection/import', 'collection/journal'],
  ['animal/s-0-7', 'enclosure/t-0-7', 'room/r-0', 'contact/item/t-0-7', 'contact/handled/t-0-7'],
  ['print/worklist', 'print/enclosures', 'print/plan'],
].flat();

/** Ten rooms with a hundred enclosures each, an animal in every one, and where each of them stands. */
function facts() {
  const climate = { day_c: 29, night_c: 25, humidity_percent: 55 };
  const one = (kind, body) => ({ kind, body });
  return Array.from({ length: rooms }, (_, room) => [
    one('room-added', {
      room: `r-${room}`,
      name: `Room ${room}`,
      ...climate,
      adjoining: [],
      floor_cm2: 200_000,
    }),
    ...Array.from({ length: tubsOfRoom }, (_, tub) => {
      const enclosure = `t-${room}-${tub}`;
      const animal = `s-${room}-${tub}`;
      return [
        one('enclosure-added', {
          enclosure,
          name: `Tub ${room} ${tub}`,
          room: `r-${room}`,
          material: 'sealed',
          substrate: 'paper',
          ...climate,
          floor_cm2: 2500,
        }),
        one('enclosure-stands', {
          enclosure,
          rack: `R${Math.floor(tub / 20)}`,
          level: 1 + (Math.floor(tub / 4) % 5),
          position: 1 + (tub % 4),
        }),
        one('animal-arrived', {
          animal,
          name: `Snake ${room} ${tub}`,
          taxon: 'corn snake',
          origin: 'bred here',
          enclosure,
          quarantine: false,
        }),
        one('weighed', { animal, mass_g: 200 + ((room * 100 + tub) % 700) }),
      ];
    }).flat(),
  ]).flat();
}

async function serve() {
  const server = spawn(program, ['-f', file, 'serve', '--port', '0'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const address = await new Promise((found) =>
    server.stdout.on('data', (text) => {
      const [at] = String(text).match(/http:\/\/127\.0\.0\.1:\d+/) ?? [];
      if (at) found(at);
    }),
  );
  return { server, address };
}

async function make() {
  const run = (...words) =>
    execFileSync(program, ['-f', file, ...words], { stdio: ['ignore', 'ignore', 'inherit'] });
  run('new');
  const { server, address } = await serve();
  const all = facts();
  for (let from = 0; from < all.length; from += 1000) {
    const body = { facts: all.slice(from, from + 1000), request: `bench-thousand-${from}` };
    const answer = await fetch(`${address}/api/record`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin: address },
      body: JSON.stringify(body),
    });
    if (!answer.ok) throw new Error(await answer.text());
  }
  server.kill();
  run('record', 'sighting', 't-0-7', '2-10', '--where', 'on-animal');
  run('plan', '--adopt', 'recommended');
}

/** Milliseconds from the tap until the second frame after the screen stands, and the longest task of them. */
const goTo = (place) =>
  new Promise((done) => {
    const long = [];
    const observer = new PerformanceObserver((list) =>
      long.push(...list.getEntries().map((one) => one.duration)),
    );
    observer.observe({ entryTypes: ['longtask'] });
    const begun = performance.now();
    location.hash = `#/${place}`;
    const look = () => {
      if (document.querySelector('main')?.dataset.place !== `#/${place}`) return requestAnimationFrame(look);
      requestAnimationFrame(() =>
        requestAnimationFrame(() => {
          const took = performance.now() - begun;
          setTimeout(() => (observer.disconnect(), done([took, Math.max(0, ...long)])), 60);
        }),
      );
    };
    requestAnimationFrame(look);
  });

/** Until nothing has changed on the screen for three seconds and nothing is waited for; two minutes at most. */
const settled = async () => {
  const state = () =>
    `${document.querySelectorAll('main *').length} ${document.querySelector('main')?.innerText.length}`;
  let [before, same] = ['', 0];
  for (let time = 0; time < 480 && same < 12; time += 1) {
    await new Promise((done) => setTimeout(done, 250));
    const now = state();
    const waits = /One moment/.test(document.body.innerText);
    same = now === before && !waits ? same + 1 : 0;
    before = now;
  }
};

const middle = (numbers) => [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)];

async function main() {
  if (!existsSync(file)) await make();
  const { server, address } = await serve();
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox'],
  });
  try {
    const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
    await page.addInitScript(() =>
      localStorage.setItem('mitefall.bench', '{"stockRead":true,"stockIs":"plain"}'),
    );
    await page.goto(`${address}/#/more`);
    console.log('| screen | middle, ms | least, ms | longest task, ms | nodes |\n|---|---|---|---|---|');
    for (const place of process.env.PLACES?.split(' ') ?? places) {
      await page.evaluate(goTo, place);
      await page.evaluate(settled);
      const taken = [];
      for (let time = 0; time < times; time += 1) {
        await page.evaluate(goTo, 'ten-minutes');
        taken.push(await page.evaluate(goTo, place));
      }
      const nodes = await page.evaluate(() => document.querySelectorAll('main *').length);
      const [took, longest] = [0, 1].map((at) => taken.map((one) => one[at]));
      const cells = [middle(took), Math.min(...took), middle(longest), nodes].map((one) => Math.round(one));
      console.log(`| \`#/${place}\` | ${cells.join(' | ')} |`);
    }
  } finally {
    await browser.close();
    server.kill();
  }
}

await main();
