// A table somebody exported from elsewhere, matched column by column to facts.
import { readNumber } from '../format';
import { words } from '../words/en';
import { Adder, type OnRecord, type RoomKind, type TubKind } from './adding';
import type { Fact } from './facts';

export const fields = Object.keys(words.importing.fields) as Field[];
export type Field = keyof typeof words.importing.fields;
/** Column of each field; a field without a column is not in the table. */
export type Matching = Partial<Record<Field, number>>;

const hints: Record<Field, RegExp> = {
  animal: /^(animal|name|snake|id)\b/,
  kind: /species|kind|taxon|type|morph/,
  enclosure: /enclosure|tub|cage|vivarium|tank|box|slot/,
  room: /room|location|rack/,
  weight: /weight|mass|\bgrams?\b/,
  arrived: /arriv|acquired|since|bought|date/,
  origin: /origin|from|breeder|source/,
  quarantine: /quarantine/,
  material: /material/,
  substrate: /substrate|bedding/,
  day_c: /day.*(temp|c\b)|temp.*day|^temp/,
  night_c: /night/,
  humidity: /humid/,
  floor: /floor|area/,
};

/** The likely column of each field, by its heading; no column is taken twice. */
export function guessColumns(headings: readonly string[]): Matching {
  const matching: Matching = {};
  const taken = new Set<number>();
  for (const field of fields) {
    const index = headings.findIndex(
      (heading, at) =>
        !taken.has(at) && hints[field].test(heading.trim().toLowerCase().replace(/[_-]+/g, ' ')),
    );
    if (index < 0) continue;
    matching[field] = index;
    taken.add(index);
  }
  return matching;
}

export interface Reading {
  facts: Fact[];
  counts: Adder['counts'];
  /** By number of the row, the first below the headings being 1. */
  problems: { row: number; text: string }[];
  /** The first rows as they will be added. */
  shown: {
    row: number;
    animal: string;
    kind: string;
    enclosure: string;
    room: string;
    weight: number | null;
  }[];
}

export interface Defaults {
  room: string;
  roomKind: RoomKind;
  tubKind: TubKind;
}

const t = words.importing.problem;
const yes = /^(1|y|yes|true|x)$/i;
const materials = new Map([
  ['sealed', 'sealed'],
  ['plastic', 'sealed'],
  ['glass', 'sealed'],
  ['pvc', 'sealed'],
  ['porous', 'porous'],
  ['wood', 'porous'],
] as const);
const substrates = new Map([
  ['paper', 'paper'],
  ['loose', 'loose'],
  ['none', 'none'],
  ['bare', 'none'],
  ['newspaper', 'paper'],
  ['bark', 'loose'],
  ['aspen', 'loose'],
  ['soil', 'loose'],
] as const);

/** One row of the table, with what is wrong in it. */
class Row {
  readonly problems: string[] = [];
  constructor(
    private readonly cells: readonly string[],
    private readonly matching: Matching,
  ) {}

  text(field: Field): string {
    const at = this.matching[field];
    return at === undefined ? '' : (this.cells[at] ?? '').trim();
  }

  number(field: Field): number | undefined {
    const text = this.text(field);
    if (!text) return undefined;
    const value = readNumber(text.replace(/\s*(g|c|°c|%|cm2|cm²)$/i, ''));
    if (value === null) this.problems.push(t.number(words.importing.fields[field], text));
    return value ?? undefined;
  }

  day(field: Field): string | undefined {
    const text = this.text(field);
    if (!text) return undefined;
    if (/^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text))) return text;
    this.problems.push(t.day(text));
    return undefined;
  }

  choice<T>(field: Field, choices: ReadonlyMap<string, T>): T | undefined {
    const text = this.text(field);
    const found = choices.get(text.toLowerCase());
    if (text && found === undefined) this.problems.push(t.choice(words.importing.fields[field], text));
    return found;
  }
}

const without = <T extends object>(values: T): Partial<T> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Partial<T>;

function addRow(row: Row, adder: Adder, defaults: Defaults): Reading['shown'][number] | null {
  const animal = row.text('animal');
  const enclosure = row.text('enclosure');
  const room = row.text('room') || defaults.room;
  const weight = row.number('weight') ?? null;
  const arrived = row.day('arrived');
  const kind = without({
    material: row.choice('material', materials),
    substrate: row.choice('substrate', substrates),
    day_c: row.number('day_c'),
    night_c: row.number('night_c'),
    humidity_percent: row.number('humidity'),
    floor_cm2: row.number('floor'),
  }) as Partial<TubKind>;
  if (!animal && !enclosure) row.problems.push(t.noAnimal);
  else if (animal && !enclosure) row.problems.push(t.noEnclosure);
  if (animal && adder.knowsAnimal(animal)) row.problems.push(t.known(animal));
  if (row.problems.length > 0) return null;
  const tub = adder.enclosure(enclosure, adder.room(room), kind);
  if (animal) {
    const body = {
      taxon: row.text('kind'),
      origin: row.text('origin'),
      enclosure: tub,
      quarantine: yes.test(row.text('quarantine')),
    };
    const id = adder.animal(animal, body, arrived);
    if (weight !== null) adder.weight(id, weight);
  }
  return { row: 0, animal, kind: row.text('kind'), enclosure, room, weight };
}

/** Everything the table would add; rows with a problem add nothing. */
export function readTable(
  rows: readonly (readonly string[])[],
  matching: Matching,
  defaults: Defaults,
  onRecord: OnRecord,
): Reading {
  const adder = new Adder(onRecord, defaults.roomKind, defaults.tubKind);
  const problems: Reading['problems'] = [];
  const shown: Reading['shown'] = [];
  rows.forEach((cells, index) => {
    if (cells.every((cell) => !cell.trim())) return;
    const row = new Row(cells, matching);
    const added = addRow(row, adder, defaults);
    if (added) shown.push({ ...added, row: index + 1 });
    problems.push(...row.problems.map((text) => ({ row: index + 1, text })));
  });
  return { facts: adder.facts, counts: adder.counts, problems, shown };
}
