import { describe, expect, it } from 'vitest';
import { Adder, arrivedOn, standing } from '../src/api/adding';
import type { Animal, Entry } from '../src/api/answers';
import { filledLines, lineFaults, nextTub } from '../src/api/lines';
import { edits, isKnownKind, nearNames } from '../src/api/kinds';
import { withUnit } from '../src/api/lines';
import { askWeight } from '../src/api/weights';
import { nameFor } from '../src/api/facts';
import { guessColumns, readTable } from '../src/api/table';

const roomKind = { day_c: 24, night_c: 21, humidity_percent: 50, adjoining: [], floor_cm2: 120_000 };
const tubKind = {
  material: 'sealed',
  substrate: 'loose',
  day_c: 29,
  night_c: 26,
  humidity_percent: 55,
  floor_cm2: 3825,
} as const;
const defaults = { room: 'Snake room', roomKind, tubKind };
const nothing = { rooms: new Map(), enclosures: new Map(), animals: new Map() };
const headings = ['Name', 'Species', 'Rack', 'Tub', 'Weight (g)', 'Acquired'];

describe('columns', () => {
  it('are guessed from their headings', () => {
    expect(guessColumns(headings)).toEqual({
      animal: 0,
      kind: 1,
      room: 2,
      enclosure: 3,
      weight: 4,
      arrived: 5,
    });
  });

  it('are never taken for two things', () => {
    const columns = Object.values(guessColumns(['name', 'enclosure_name', 'room', 'day temp', 'night temp']));
    expect(new Set(columns).size).toBe(columns.length);
  });

  it('that say nothing known are left alone', () => {
    expect(guessColumns(['colour of eyes'])).toEqual({});
  });
});

describe('a table', () => {
  const matching = guessColumns(headings);
  const read = (rows: string[][], onRecord = nothing) => readTable(rows, matching, defaults, onRecord);

  it('becomes rooms, then enclosures, then animals, then weights', () => {
    const { facts, counts, problems } = read([
      ['Ada', 'ball python', 'Rack 1', 'A1', '1620', '2024-06-28'],
      ['Bruno', 'ball python', 'Rack 1', 'A2', '', ''],
    ]);
    expect(problems).toEqual([]);
    expect(counts).toEqual({ rooms: 1, tubs: 2, animals: 2, weights: 1 });
    expect(facts.map((one) => one.kind)).toEqual([
      'room-added',
      'enclosure-added',
      'enclosure-added',
      'animal-arrived',
      'animal-arrived',
      'weighed',
    ]);
    expect(facts[3]).toMatchObject({
      day: '2024-06-28',
      body: { animal: 'ada', enclosure: 'a1', origin: '' },
    });
  });

  it('puts an enclosure in its place before the first animal came', () => {
    const { facts } = read([['Ada', '', 'R', 'A1', '', '2024-06-28']]);
    expect(facts.filter((one) => one.kind !== 'animal-arrived').map((one) => one.day)).toEqual([
      '2024-06-28',
      '2024-06-28',
    ]);
  });

  it('shares a tub between animals that name the same', () => {
    expect(
      read([
        ['Ada', '', 'R', 'A1', '', ''],
        ['Bo', '', 'R', 'a1', '', ''],
      ]).counts,
    ).toMatchObject({ tubs: 1, animals: 2 });
  });

  it('uses what is on record already and says which animals are', () => {
    const onRecord = {
      rooms: new Map([['r', 'R']]),
      enclosures: new Map([['a1', 'A1']]),
      animals: new Map([['ada', 'Ada']]),
    };
    const { facts, problems } = read(
      [
        ['Ada', '', 'R', 'A1', '', ''],
        ['Bo', '', 'R', 'A1', '', ''],
      ],
      onRecord,
    );
    expect(facts.map((one) => one.kind)).toEqual(['animal-arrived']);
    expect(problems).toMatchObject([{ row: 1 }]);
  });

  it.each([
    [['Ada', '', '', '', '', '']],
    [['', '', 'R', '', '', '']],
    [['Ada', '', 'R', 'A1', 'heavy', '']],
    [['Ada', '', 'R', 'A1', '', '28/6/2024']],
  ])('leaves out a row it does not understand, and says so: %j', (row) => {
    const { facts, problems } = read([row]);
    expect(facts).toEqual([]);
    expect(problems.map((one) => one.row)).toContain(1);
  });

  it('takes a tub of its own without an animal', () => {
    expect(read([['', '', 'R', 'A9', '', '']]).counts).toMatchObject({ tubs: 1, animals: 0 });
  });
});

describe('names on record', () => {
  it('are plain, and free', () => {
    expect(nameFor('Tub A 05', new Set())).toBe('tub-a-05');
    expect(nameFor('Größe', new Set())).toBe('gro-e');
    expect(nameFor('Ada', new Set(['ada', 'ada-2']))).toBe('ada-3');
    expect(nameFor('🐍', new Set())).toBe('x');
  });
});

describe('a list that is typed', () => {
  it('takes an empty kind from above and skips empty lines', () => {
    const line = (name: string, kind: string) => ({ name, kind, tub: '', weight: '' });
    const lines = filledLines([
      line('Ada', 'ball python'),
      line('', ''),
      line('Bo', ''),
      line('Cy', 'corn snake'),
    ]);
    expect(lines.map((one) => [one.name, one.kind])).toEqual([
      ['Ada', 'ball python'],
      ['Bo', 'ball python'],
      ['Cy', 'corn snake'],
    ]);
  });

  it('finds free tubs, past those on record and those just made', () => {
    const adder = new Adder({ ...nothing, enclosures: new Map([['tub-1', 'Tub 1']]) }, roomKind, tubKind);
    const room = adder.room('Snake room');
    for (let count = 0; count < 2; count += 1)
      adder.enclosure(
        nextTub('Tub', (name) => adder.knowsEnclosure(name)),
        room,
      );
    expect(adder.facts.slice(1).map((one) => one.body)).toMatchObject([{ name: 'Tub 2' }, { name: 'Tub 3' }]);
  });

  it('marks a weight that is not understood and a line without a name', () => {
    const units = { system: 'metric', scale: 'C' } as const;
    const line = (name: string, weight: string, tub = '') => ({ name, kind: '', tub, weight });
    expect(lineFaults(line('', ''), units)).toEqual({ name: null, weight: null });
    expect(lineFaults(line('Ada', '1620 g'), units)).toEqual({ name: null, weight: null });
    expect(lineFaults(line('', '1620'), units).name).toContain('no name');
    expect(lineFaults(line('', '', 'Tub 3'), units).name).toContain('no name');
    expect(lineFaults(line('Ada', 'abc'), units).weight).toContain('“abc”');
    expect(lineFaults(line('Ada', '-4'), units).weight).toContain('“-4”');
  });

  it('tells which line each fact is from', () => {
    const adder = new Adder(nothing, roomKind, tubKind);
    adder.row = 7;
    const enclosure = adder.enclosure('A1', adder.room('R'));
    adder.row = 9;
    adder.animal('Ada', { taxon: '', origin: '', enclosure, quarantine: false });
    expect(adder.rows).toEqual([7, 7, 9]);
  });
});

describe('since when animals are here', () => {
  const body = { taxon: '', origin: '', quarantine: false };
  const daysOf = (adder: Adder) => adder.facts.map((one) => [one.kind, one.day]);

  it('is a long time, a day, or today', () => {
    expect(arrivedOn('long', '', '2026-11-26')).toBe('2025-10-22');
    expect(arrivedOn('since', '2026-03-14', '2026-11-26')).toBe('2026-03-14');
    expect(arrivedOn('today', '2026-03-14', '2026-11-26')).toBeUndefined();
  });

  it('is the day of new rooms and enclosures too, not of weights', () => {
    const adder = new Adder(nothing, roomKind, tubKind);
    const animal = adder.animal(
      'Ada',
      { ...body, enclosure: adder.enclosure('A1', adder.room('R')) },
      '2025-10-22',
    );
    adder.weight(animal, 1620);
    expect(daysOf(adder)).toEqual([
      ['room-added', '2025-10-22'],
      ['enclosure-added', '2025-10-22'],
      ['animal-arrived', '2025-10-22'],
      ['weighed', undefined],
    ]);
  });

  it('is never before the place on record stood', () => {
    const onRecord = {
      rooms: new Map([['r', 'R']]),
      enclosures: new Map([['a1', 'A1']]),
      animals: new Map(),
      since: { rooms: new Map([['r', '2026-01-02']]), enclosures: new Map([['a1', '2026-02-03']]) },
    };
    const adder = new Adder(onRecord, roomKind, tubKind);
    const room = adder.room('R');
    adder.animal('Ada', { ...body, enclosure: adder.enclosure('A1', room) }, '2025-10-22');
    adder.animal('Bo', { ...body, enclosure: adder.enclosure('A2', room) }, '2025-10-22');
    expect(daysOf(adder)).toEqual([
      ['enclosure-added', '2026-01-02'],
      ['animal-arrived', '2026-01-02'],
      ['animal-arrived', '2026-02-03'],
    ]);
  });

  it('goes by the entries in force', () => {
    const entry = (id: number, day: string, enclosure: string, corrects: number | null = null) =>
      ({ id, day, corrects, kind: 'enclosure-added', fact: { enclosure } }) as unknown as Entry;
    const { enclosures } = standing([entry(1, '2026-01-01', 'a'), entry(2, '2025-01-01', 'a', 1)]);
    expect(enclosures.get('a')).toBe('2025-01-01');
  });
});

describe('kinds', () => {
  const taxon = (name: string, scientific: string) => ({ name, scientific, group: 'snake' });
  const taxa = [taxon('ball python', 'Python regius'), taxon('Corydoras', 'Corydoras')] as never;

  it('are known however they are written', () => {
    expect(isKnownKind('Ball-Python ', taxa)).toBe(true);
    expect(isKnownKind('Corydoras paleatus', taxa)).toBe(true);
    expect(isKnownKind('bal pithon', taxa)).toBe(false);
    expect(isKnownKind('ball', taxa)).toBe(false);
  });

  it('are told by the nearest names', () => {
    const names = ['corn snake', 'ball python', 'Angolan python', 'python', 'blood python'];
    expect(nearNames('bal pithon', names)[0]).toBe('ball python');
    expect(nearNames('ball python banana', names)[0]).toBe('ball python');
    expect(nearNames('corn snak', names, 1)).toEqual(['corn snake']);
    expect(edits('kitten', 'sitting')).toBe(3);
    expect(edits('', 'abc')).toBe(3);
  });
});

describe('the list that is kept', () => {
  const metric = { system: 'metric', scale: 'C' } as const;
  const us = { system: 'us', scale: 'F' } as const;
  const line = (weight: string) => ({ name: 'Ada', kind: '', tub: '', weight });

  it('keeps each weight in the unit it was typed in', () => {
    expect(withUnit(line('1620'), metric, us).weight).toBe('1620 g');
    expect(withUnit(line('1.6 kg'), metric, us).weight).toBe('1.6 kg');
    expect(withUnit(line('1620'), metric, metric).weight).toBe('1620');
  });
});

describe('names on record', () => {
  it('are cut to what the journal allows, and differ', () => {
    const long = 'The old wooden vivarium in the corner behind the door';
    const first = nameFor(long, new Set());
    expect(first.length).toBeLessThanOrEqual(40);
    expect(first).toMatch(/^[a-z0-9-]+[a-z0-9]$/);
    const second = nameFor(long, new Set([first]));
    expect(second.length).toBeLessThanOrEqual(40);
    expect(second).not.toBe(first);
  });
});

describe('a weight', () => {
  const units = { system: 'metric', scale: 'C' } as const;
  const animal = (name: string, mass_g: number | null) =>
    ({
      animal: name.toLowerCase(),
      name,
      weight: mass_g === null ? null : { mass_g, day: '2026-11-03', entry: 1 },
    }) as unknown as Animal;

  it('that is more than half away from the last is asked about', () => {
    expect(askWeight(1.62, [animal('Moss', 1620)], units)).toBe(
      'Moss weighed 1.62 kg on 3 Nov 2026. Really 1.62 g now?',
    );
    expect(askWeight(2500, [animal('Moss', 1620)], units)).not.toBeNull();
  });

  it('that is likely, or the first, is not', () => {
    expect(askWeight(1500, [animal('Moss', 1620), animal('Bo', null)], units)).toBeNull();
    expect(askWeight(null, [animal('Moss', 1620)], units)).toBeNull();
  });

  it('for many names three of them', () => {
    const many = ['A', 'B', 'C', 'D', 'E'].map((name) => animal(name, 1000));
    expect(askWeight(1, many, units)).toMatch(/A weighed.*B weighed.*C weighed.*And 2 more\.$/);
  });
});
