// A table somebody exported from elsewhere, matched column by column to facts.
import { words } from '../../words/en';
import { Adder, type OnRecord, type RoomKind, type TubKind } from './adding';
import type { Field, Matching } from './columns';
import { orderOf, type Order } from './days';
import { marksOf, unitOf } from './figures';
import type { Fact } from '../../domain/facts';
import { Row, type Manner } from './row';

interface Problem {
  row: number;
  text: string;
}

export interface Reading {
  facts: Fact[];
  /** The row of each fact, the first below the headings being 1. */
  rows: number[];
  counts: Adder['counts'];
  /** Rows that are left out. */
  problems: Problem[];
  /** Cells that are left out of rows that are taken. */
  dropped: Problem[];
  /** Days of the file may be read in two ways, and nothing tells which. */
  askOrder: boolean;
  shown: Shown[];
}

/** A row as it will be added. */
export interface Shown {
  row: number;
  animal: string;
  /** As the table has it. */
  written: string;
  /** As it goes on record. */
  kind: string;
  enclosure: string;
  room: string;
  weight: number | null;
  since: string | null;
  quarantine: boolean;
  dropped: Field[];
}

export interface Defaults {
  room: string;
  roomKind: RoomKind;
  tubKind: TubKind;
  /** The day animals came whose row tells none; without one, today. */
  day?: string | undefined;
  /** Whether animals go into quarantine whose row does not tell. */
  quarantine?: boolean;
  /** How days are written, where the keeper told. */
  order: Order | null;
  today: string;
  /** The full name of a kind, by how the table has it. */
  kindOf?: (written: string) => string;
}

const t = words.importing.problem;
const without = <T extends object>(values: T): Partial<T> =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Partial<T>;

function addRow(row: Row, adder: Adder, defaults: Defaults): Omit<Shown, 'row' | 'dropped'> | null {
  const animal = row.text('animal');
  const enclosure = row.text('enclosure');
  const room = row.text('room') || defaults.room;
  if (!animal && !enclosure) row.problems.push(t.noAnimal);
  else if (animal && !enclosure) row.problems.push(t.noEnclosure);
  if (animal && adder.knowsAnimal(animal)) row.problems.push(t.known(animal));
  if (row.problems.length > 0) return null;
  const kind = without({
    material: row.material(),
    substrate: row.substrate(),
    day_c: row.celsius('day_c'),
    night_c: row.celsius('night_c'),
    humidity_percent: row.percent('humidity'),
    floor_cm2: row.area('floor'),
  }) as Partial<TubKind>;
  const weight = row.weight() ?? null;
  const since = row.day('arrived') ?? defaults.day ?? null;
  const written = row.text('kind');
  const quarantine = animal !== '' && row.isYes('quarantine', defaults.quarantine);
  const called = defaults.kindOf?.(written) ?? written;
  const tub = adder.enclosure(enclosure, adder.room(room), kind);
  if (animal) {
    const body = {
      taxon: called,
      origin: row.text('origin'),
      enclosure: tub,
      quarantine,
    };
    const id = adder.animal(animal, body, since ?? undefined);
    if (weight !== null) adder.weight(id, weight);
  }
  return { animal, written, kind: called, enclosure, room, weight, since, quarantine };
}

function mannerOf(
  table: readonly (readonly string[])[],
  matching: Matching,
  defaults: Defaults,
): Manner & { askOrder: boolean } {
  const column = (field: Field): string[] => {
    const at = matching[field];
    return at === undefined ? [] : table.slice(1).map((cells) => cells[at] ?? '');
  };
  const order = orderOf(column('arrived'));
  return {
    order: order === 'ask' ? defaults.order : order,
    askOrder: order === 'ask',
    marks: marksOf(column('weight')),
    massUnit: unitOf(table[0]?.[matching.weight ?? -1] ?? ''),
    today: defaults.today,
  };
}

/** Everything the table, whose first row are headings, would add; `refused` tells rows the server does not take. */
export function readTable(
  table: readonly (readonly string[])[],
  matching: Matching,
  defaults: Defaults,
  onRecord: OnRecord,
  refused: ReadonlyMap<number, string> = new Map(),
): Reading {
  const adder = new Adder(onRecord, defaults.roomKind, defaults.tubKind);
  const manner = mannerOf(table, matching, defaults);
  const problems: Problem[] = [];
  const dropped: Problem[] = [];
  const shown: Shown[] = [];
  table.slice(1).forEach((cells, index) => {
    if (cells.every((cell) => !cell.trim())) return;
    const number = index + 1;
    const why = refused.get(number);
    if (why !== undefined) return void problems.push({ row: number, text: why });
    const row = new Row(cells, matching, manner);
    adder.row = number;
    const added = addRow(row, adder, defaults);
    if (added) shown.push({ ...added, row: number, dropped: row.dropped.map((one) => one.field) });
    problems.push(...row.problems.map((text) => ({ row: number, text })));
    dropped.push(...row.dropped.map(({ text }) => ({ row: number, text })));
  });
  const { facts, rows, counts } = adder;
  return { facts, rows, counts, problems, dropped, askOrder: manner.askOrder, shown };
}

/** The row a refusal of the server is about: its `where` is "/facts/3/..." (from 0) or "fact 4 of 9" (from 1). */
export function rowOf(where: string, rows: readonly number[]): number | undefined {
  const path = /^\/facts\/(\d+)/.exec(where)?.[1];
  const count = /^fact (\d+) of/.exec(where)?.[1];
  if (path !== undefined) return rows[Number(path)];
  return count === undefined ? undefined : rows[Number(count) - 1];
}
