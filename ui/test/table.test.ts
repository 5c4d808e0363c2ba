import { describe, expect, it } from 'vitest';
import { Adder, filledLines, nextTub } from '../src/api/adding';
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
});
