// What is asked of the program about a table, and what is still open in its answer.
import type { ImportAnswer } from '../../contract/answers';
import type { RoomKind, TubKind } from '../../domain/adding';

export type Field = keyof ImportAnswer['columns'];
export type Problem = ImportAnswer['problems'][number];
export type Order = 'day' | 'month';
export const orders = ['day', 'month'] as const;

/** What the form holds beside the table itself. */
export interface Answers {
  text: string;
  /** Columns told otherwise than they are guessed; null: none. */
  columns: Partial<Record<Field, number | null>>;
  room: string;
  roomKind: RoomKind;
  tubKind: TubKind;
  /** The day animals came whose row tells none; without one, today. */
  since: string | undefined;
  quarantine: boolean;
  order: Order | null;
  /** The name of a kind, by how the table has it. */
  kinds: Readonly<Record<string, string>>;
  /** Whether an animal of a name that is taken is another one, or its row is left out. */
  sameNames: Readonly<Record<string, 'other' | 'leave-out'>>;
}

/** Rows that are left out because their animal is there already. */
function rowsLeftOut(answers: Answers, known: ImportAnswer | null): number[] {
  const names = known?.questions.same_names ?? [];
  return names
    .filter((one) => answers.sameNames[one.name] === 'leave-out')
    .flatMap((one) => (one.on_record ? one.rows : one.rows.slice(1)));
}

/** The body of the request; `seen`: the answer whose problems are agreed to be left out. */
export function bodyOf(answers: Answers, asked: ImportAnswer | null, seen: ImportAnswer | null): object {
  const { roomKind, tubKind, order, since } = answers;
  const rows = [...rowsLeftOut(answers, asked), ...(seen?.problems ?? []).map((one) => one.row)];
  return {
    text: answers.text,
    columns: Object.entries(answers.columns).map(
      ([field, column]) => `${field}=${column === null ? '' : column + 1}`,
    ),
    kind_is: Object.entries(answers.kinds).map(([written, name]) => `${written}=${name}`),
    other: Object.keys(answers.sameNames).filter((name) => answers.sameNames[name] === 'other'),
    leave_out: [...new Set(rows)].map(String),
    ...(order ? { date_order: order } : {}),
    ...(since ? { since } : {}),
    quarantine: answers.quarantine,
    room: answers.room,
    room_day_c: roomKind.day_c,
    room_night_c: roomKind.night_c,
    room_humidity_percent: roomKind.humidity_percent,
    room_floor_cm2: roomKind.floor_cm2,
    day_c: tubKind.day_c,
    night_c: tubKind.night_c,
    humidity_percent: tubKind.humidity_percent,
    floor_cm2: tubKind.floor_cm2,
    material: tubKind.material,
    substrate: tubKind.substrate,
  };
}

/** Whether nothing is asked any more and something would be added. */
export function isSettled(answer: ImportAnswer): boolean {
  const asksKind = answer.kinds.some((one) => one.how === 'several' && one.name === null);
  const { days_of_two, same_names } = answer.questions;
  return !asksKind && days_of_two.length === 0 && same_names.length === 0 && answer.rows.length > 0;
}
