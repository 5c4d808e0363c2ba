import { describe, expect, it } from 'vitest';
import { Adder } from '../src/features/collection/adding';
import { arrivedOn, standing } from '../src/features/collection/since';
import type { Animal, Entry } from '../src/contract/answers';
import { filledLines, lineFaults, nextTub } from '../src/features/collection/lines';
import { edits, fullName, keyOf, nearNames } from '../src/domain/kinds';
import { withUnit } from '../src/features/collection/lines';
import { askWeight } from '../src/domain/weights';
import { nameFor } from '../src/domain/facts';
import { guessColumns } from '../src/features/collection/columns';
import { orderOf, readDay } from '../src/features/collection/days';
import { cellMass, marksOf, readMarked, unitOf } from '../src/features/collection/figures';
import { readTable, rowOf } from '../src/features/collection/table';

const roomKind = { day_c: 24, night_c: 21, humidity_percent: 50, adjoining: [], floor_cm2: 120_000 };
const tubKind = {
  material: 'sealed',
  substrate: 'loose',
  day_c: 29,
  night_c: 26,
  humidity_percent: 55,
  floor_cm2: 3825,
} as const;
const defaults = { room: 'Snake room', roomKind, tubKind, order: null, today: '2026-11-26' };
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
  const read = (rows: string[][], onRecord = nothing) =>
    readTable([headings, ...rows], matching, defaults, onRecord);

  it('puts new animals in quarantine as it is answered, but for rows that say it themselves', () => {
    const names = ['Name', 'Tub', 'Quarantine'];
    const rows = [
      ['Ada', 'A1', ''],
      ['Bruno', 'A2', 'no'],
      ['Cleo', 'A3', 'yes'],
      ['', 'A4', ''],
    ];
    const kept = (quarantine?: boolean): (boolean | undefined)[] => {
      const asked = quarantine === undefined ? defaults : { ...defaults, quarantine };
      const { facts, shown } = readTable([names, ...rows], guessColumns(names), asked, nothing);
      const arrived = facts.flatMap((one) =>
        one.kind === 'animal-arrived' && 'quarantine' in one.body ? [one.body.quarantine] : [],
      );
      expect(shown.filter((row) => row.animal).map((row) => row.quarantine)).toEqual(arrived);
      expect(shown.at(-1)?.quarantine).toBe(false);
      return arrived;
    };
    expect(kept(true)).toEqual([true, false, true]);
    expect(kept(false)).toEqual([false, false, true]);
    expect(kept()).toEqual([false, false, true]);
  });

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

  it.each([[['Ada', '', '', '', '', '']], [['', '', 'R', '', '', '']]])(
    'leaves out a row it does not understand, and says so: %j',
    (row) => {
      const { facts, problems } = read([row]);
      expect(facts).toEqual([]);
      expect(problems.map((one) => one.row)).toContain(1);
    },
  );

  it.each([
    [['Ada', '', 'R', 'A1', 'heavy', ''], 'weight'],
    [['Ada', '', 'R', 'A1', '-4', ''], 'weight'],
    [['Ada', '', 'R', 'A1', '1,200', ''], 'weight'],
    [['Ada', '', 'R', 'A1', '', 'last week'], 'arrived'],
    [['Ada', '', 'R', 'A1', '', '2031-01-01'], 'arrived'],
  ])('leaves out a cell it does not understand, never the animal: %j', (row, field) => {
    const { counts, problems, dropped, shown } = read([row as string[]]);
    expect(problems).toEqual([]);
    expect(counts).toMatchObject({ animals: 1, weights: 0 });
    expect(dropped.map((one) => one.row)).toEqual([1]);
    expect(shown[0]?.dropped).toEqual([field]);
  });

  it('leaves out a row the server refused, and finds it by its fact', () => {
    const rows = [headings, ['Ada', '', 'R', 'A1', '', ''], ['Bo', '', 'R', 'A2', '5', '']];
    const all = readTable(rows, matching, defaults, nothing);
    expect(all.rows).toEqual([1, 1, 2, 1, 2, 2]);
    expect(rowOf('/facts/5/body/mass_g', all.rows)).toBe(2);
    expect(rowOf('fact 3 of 6', all.rows)).toBe(2);
    expect(rowOf('', all.rows)).toBeUndefined();
    const rest = readTable(rows, matching, defaults, nothing, new Map([[2, 'too long']]));
    expect(rest.counts).toMatchObject({ animals: 1 });
    expect(rest.problems).toEqual([{ row: 2, text: 'too long' }]);
  });

  it('takes the unit of the heading and the marks of the column', () => {
    const metricRows = [
      ['Name', 'Tub', 'Weight (kg)'],
      ['Ada', 'A1', '1,62'],
      ['Bo', 'A2', '1,200'],
    ];
    const { shown } = readTable(metricRows, guessColumns(metricRows[0] ?? []), defaults, nothing);
    expect(shown.map((one) => one.weight)).toEqual([1620, 1200]);
  });

  it('puts animals without a day on the usual one', () => {
    const { facts } = readTable(
      [headings, ['Ada', '', 'R', 'A1', '', ''], ['Bo', '', 'R', 'A2', '', '14.03.2026']],
      matching,
      { ...defaults, day: '2025-10-22' },
      nothing,
    );
    const arrivals = facts.filter((one) => one.kind === 'animal-arrived').map((one) => one.day);
    expect(arrivals).toEqual(['2025-10-22', '2026-03-14']);
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
    const { since } = standing([entry(1, '2026-01-01', 'a'), entry(2, '2025-01-01', 'a', 1)]);
    expect(since.enclosures.get('a')).toBe('2025-01-01');
  });
});

describe('an animal named as one that has left', () => {
  it('gets a record of its own, not the weight of the other', () => {
    const arrived = {
      id: 1,
      day: '2026-01-01',
      corrects: null,
      kind: 'animal-arrived',
      fact: { animal: 'moss' },
    };
    const { ever } = standing([arrived as unknown as Entry]);
    const adder = new Adder({ ...nothing, ever }, roomKind, tubKind);
    const body = { taxon: '', origin: '', quarantine: false, enclosure: 'a1' };
    expect(adder.knowsAnimal('Moss')).toBe(false);
    expect(adder.animal('Moss', body)).toBe('moss-2');
  });
});

describe('kinds', () => {
  const kind = (name: string, scientific: string) => ({
    name,
    scientific,
    group: 'snake',
    unidentified: false,
  });
  const ball = kind('ball python', 'Python regius');

  it('are one kind however they are written', () => {
    expect(keyOf(' Ball-Python')).toBe(keyOf('ball python'));
    expect(keyOf('ball')).not.toBe(keyOf('ball python'));
  });

  it('go on record by their full name only where a short name is plain', () => {
    expect(fullName('ball', { how: 'trade-name', kinds: [ball] })).toBe('ball python');
    expect(fullName('Python regius', { how: 'name', kinds: [ball] })).toBe('Python regius');
    const kings = [
      kind('California kingsnake', 'Lampropeltis californiae'),
      kind('king cobra', 'Ophiophagus hannah'),
    ];
    expect(fullName('king', { how: 'several', kinds: kings })).toBe('king');
    expect(fullName('gollywog', { how: 'unknown', kinds: [] })).toBe('gollywog');
    expect(fullName('ball', undefined)).toBe('ball');
  });

  it('of a table are shown as written and as they go on record', () => {
    const kindOf = (written: string): string => (written === 'ball' ? 'ball python' : written);
    const rows = [
      headings,
      ['Ada', 'ball', 'Rack 1', 'A1', '', ''],
      ['Cleo', 'moon snake', 'Rack 1', 'A2', '', ''],
    ];
    const { facts, shown } = readTable(rows, guessColumns(headings), { ...defaults, kindOf }, nothing);
    expect(shown.map((row) => [row.written, row.kind])).toEqual([
      ['ball', 'ball python'],
      ['moon snake', 'moon snake'],
    ]);
    const arrived = facts.filter((one) => one.kind === 'animal-arrived');
    expect(arrived.map((one) => (one.body as { taxon: string }).taxon)).toEqual([
      'ball python',
      'moon snake',
    ]);
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

describe('days in a table', () => {
  it.each([
    ['2026-03-14', '2026-03-14'],
    ['14.03.2026', '2026-03-14'],
    ['14/03/2026', '2026-03-14'],
    ['03/14/2026', '2026-03-14'],
    ['14 Mar 2026', '2026-03-14'],
    ['March 14, 2026', '2026-03-14'],
    ['14-mar-26', '2026-03-14'],
    ['2026/3/4', '2026-03-04'],
    ['5/5/2026', '2026-05-05'],
    ['2026-03-14 00:00:00', '2026-03-14'],
  ])('%s is %s', (text, day) => expect(readDay(text, null)).toBe(day));

  it('that may be two need an order', () => {
    expect(readDay('03/04/2026', null)).toBeNull();
    expect(readDay('03/04/2026', 'day')).toBe('2026-04-03');
    expect(readDay('03/04/2026', 'month')).toBe('2026-03-04');
  });

  it.each(['31.02.2026', 'spring', '14/3', '2026-13-01', ''])('%s is none', (text) =>
    expect(readDay(text, 'day')).toBeNull(),
  );

  it('are decided by those that fit only one order', () => {
    expect(orderOf(['03/04/2026', '14/03/2026'])).toBe('day');
    expect(orderOf(['03/04/2026', '03/14/2026'])).toBe('month');
    expect(orderOf(['03/04/2026', '5/5/2026'])).toBe('ask');
    expect(orderOf(['14/03/2026', '03/14/2026', '03/04/2026'])).toBe('ask');
    expect(orderOf(['14/03/2026', '03/14/2026'])).toBeNull();
    expect(orderOf(['2026-03-14', ''])).toBeNull();
  });
});

describe('weights in a table', () => {
  it('are decided by the cells that can mean one thing', () => {
    expect(marksOf(['1,200', '1,62 kg'])).toEqual({ comma: 'decimal', point: null });
    expect(marksOf(['1,200', '1,620.5'])).toEqual({ comma: 'thousands', point: 'decimal' });
    expect(marksOf(['1.620', '1.620,5'])).toEqual({ comma: 'decimal', point: 'thousands' });
    expect(marksOf(['1,200'])).toEqual({ comma: null, point: null });
    expect(marksOf(['0,500'])).toMatchObject({ comma: 'decimal' });
    expect(marksOf(['1,62', '1,620.5'])).toMatchObject({ comma: null });
  });

  it('are read by what the marks mean', () => {
    expect(readMarked('1,200', { comma: 'decimal', point: null })).toBe(1.2);
    expect(readMarked('1,200', { comma: 'thousands', point: null })).toBe(1200);
    expect(readMarked('1,200', { comma: null, point: null })).toBeNull();
    expect(readMarked('1.620', { comma: null, point: null })).toBe(1.62);
    expect(readMarked('1.620', { comma: 'decimal', point: 'thousands' })).toBe(1620);
    expect(readMarked('1.620', { comma: 'decimal', point: null })).toBeNull();
  });

  it('carry their unit or take that of the heading', () => {
    const none = { comma: null, point: null };
    expect(cellMass('1,62 kg', none, 'g').value).toBe(1620);
    expect(cellMass('2', none, 'kg').value).toBe(2000);
    expect(cellMass('1.620', { comma: 'decimal', point: null }, 'g').why).toContain(
      'Is 1.620 one thousand six hundred and twenty, or 1.62?',
    );
    expect(cellMass('1.620,5', none, 'g').value).toBe(1620.5);
    expect(unitOf('Weight (kg)')).toBe('kg');
    expect(unitOf('weight in lbs')).toBe('lb');
    expect(unitOf('Grams')).toBe('g');
  });
});
