// Facts to put on record: the journal's kinds and keys, with "" and 0 where the journal answers null.
import type { Entry, FactKind } from '../contract/answers';

type Filled<T> = {
  [K in keyof T]:
    Exclude<T[K], null> | (null extends T[K] ? (T[K] extends string | null ? '' : never) : never);
};
export type Body<K extends FactKind> = Filled<Extract<Entry, { kind: K }>['fact']>;

export interface Fact<K extends FactKind = FactKind> {
  day?: string;
  kind: K;
  body: Body<K>;
}

export function fact<K extends FactKind>(kind: K, body: Body<K>, day?: string): Fact<K> {
  return day ? { day, kind, body } : { kind, body };
}

const longest = 40;
const roomForNumber = 5;

/** A name for a thing that is free: made from what the keeper calls it. */
export function nameFor(text: string, taken: ReadonlySet<string>): string {
  const plain = text
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  const base = plain.slice(0, longest - roomForNumber).replace(/-+$/, '') || 'x';
  if (!taken.has(base)) return base;
  let number = 2;
  while (taken.has(`${base}-${number}`)) number += 1;
  return `${base}-${number}`;
}
