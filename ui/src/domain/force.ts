// The journal as it stands: without what was corrected or withdrawn, in the order in which it took effect.
import type { Entry, FactKind } from '../contract/answers';

export type EntryOf<K extends FactKind> = Extract<Entry, { kind: K }>;

/** A correction takes the place of the entry it began with. */
export function inForce(entries: readonly Entry[]): Entry[] {
  const replaced = new Set(entries.map((entry) => entry.corrects));
  const places = new Map<number, number>();
  for (const { id, corrects } of entries)
    places.set(id, corrects === null ? id : (places.get(corrects) ?? corrects));
  const place = (entry: Entry): number => places.get(entry.id) ?? entry.id;
  return entries
    .filter((entry) => !replaced.has(entry.id) && entry.kind !== 'withdrawn')
    .sort((a, b) => a.day.localeCompare(b.day) || place(a) - place(b) || a.id - b.id);
}

export function ofKind<K extends FactKind>(entries: readonly Entry[], kind: K): EntryOf<K>[] {
  return entries.filter((entry): entry is EntryOf<K> => entry.kind === kind);
}
