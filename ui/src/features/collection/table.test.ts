import { describe, expect, it } from 'vitest';
import { headings, nothing, roomKind, tubKind } from '../../../test/adding';
import { guessColumns } from './columns';
import { readTable, rowOf } from './table';

const defaults = { room: 'Snake room', roomKind, tubKind, order: null, today: '2026-11-26' };

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

  it('shows kinds as written and as they go on record', () => {
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
});
