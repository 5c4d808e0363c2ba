// Since when animals are here, and since when the places they came into stand.
import { addDays } from '../format';
import type { Places } from './adding';
import type { Entry } from '../contract/answers';
import { inForce } from './force';

/** What the journal adds to the collection: from when places stand, and which animals ever came. */
export function standing(entries: readonly Entry[]): { since: Places<string>; ever: Set<string> } {
  const rooms = new Map<string, string>();
  const enclosures = new Map<string, string>();
  const ever = new Set<string>();
  for (const entry of inForce(entries)) {
    if (entry.kind === 'room-added') rooms.set(entry.fact.room, entry.day);
    if (entry.kind === 'enclosure-added') enclosures.set(entry.fact.enclosure, entry.day);
    if (entry.kind === 'animal-arrived') ever.add(entry.fact.animal);
  }
  return { since: { rooms, enclosures }, ever };
}

export type Here = 'long' | 'since' | 'today';
/** More than half a year: longer ago than any contact is traced, and than mites go unseen. */
const longAgo = 400;

/** The day on which animals came that are put on record today; none for today. */
export function arrivedOn(here: Here, since: string, today: string): string | undefined {
  if (here === 'long') return addDays(today, -longAgo);
  return here === 'since' && since ? since : undefined;
}
