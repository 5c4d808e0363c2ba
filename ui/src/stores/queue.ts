// Ticks, and what was seen at a task, wait here until the server has them. Each is kept under its own key of the browser's storage, so that
// two open pages never overwrite each other's and a reload loses nothing.

import type { Seen, SeenWhere } from '../contract/answers';
import type { Fact } from '../domain/facts';

export interface Tick {
  key: string;
  /** Day of the list it stood on, and the last journal entry that list was made from. */
  day: string;
  seen?: number;
  /** Why it was skipped; without one it was done. */
  reason?: string;
  /** Initials of who tapped. */
  by?: string;
  /** Of a check: how many mites were seen, and where. */
  found?: Seen;
  where?: SeenWhere;
  /** Facts to put on record in place of a tick: a mite seen, a reaction. */
  facts?: Fact[];
  /** What it is, in words. */
  label?: string;
  /** It was sent, and may have come although no answer did. */
  tried?: boolean;
  /** It is to be taken back, by its key. */
  back?: boolean;
}

/** `id`: its place in the storage, and the key of its request, the same however often it is sent. */
export interface Waiting extends Tick {
  id: string;
}

export type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

const prefix = 'mitefall.tick.';

function read(shelf: Shelf, id: string): Waiting | null {
  try {
    const tick = JSON.parse(shelf.getItem(id) ?? 'null') as Tick | null;
    return tick && typeof tick.key === 'string' && typeof tick.day === 'string' ? { ...tick, id } : null;
  } catch {
    return null;
  }
}

/** All that wait, oldest first. */
export function waiting(shelf: Shelf): Waiting[] {
  const ids = Array.from({ length: shelf.length }, (_, index) => shelf.key(index));
  return ids
    .filter((id): id is string => id?.startsWith(prefix) ?? false)
    .sort()
    .map((id) => read(shelf, id))
    .filter((tick) => tick !== null);
}

/** Puts a tick at the end; the clock and the salt make its place unlike any other. */
export function shelve(shelf: Shelf, tick: Tick, now: number, salt: string): Waiting {
  const id = `${prefix}${String(now).padStart(15, '0')}.${salt}`;
  shelf.setItem(id, JSON.stringify(tick));
  return { ...tick, id };
}

/** Puts down what became of one that waits, or waited. */
export function note(shelf: Shelf, { id, ...tick }: Waiting, became: Partial<Tick>): void {
  shelf.setItem(id, JSON.stringify({ ...tick, ...became }));
}

/** As it stands in the storage; null once it is gone. */
export const standing = read;

/** Something to put on record, not the tick of a task. */
export const isReport = (tick: Tick): boolean => tick.facts !== undefined;

export function unshelve(shelf: Shelf, id: string): void {
  shelf.removeItem(id);
}
