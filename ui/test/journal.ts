// Entries of a journal.
import type { Entry } from '../src/contract/answers';

export const roomAdded = (
  id: number,
  name: string,
  adjoining: string[] = [],
  corrects: number | null = null,
): Entry =>
  ({
    id,
    day: '2026-01-01',
    kind: 'room-added',
    corrects,
    fact: { room: name, name, adjoining },
  }) as unknown as Entry;
