// What is put right about a room that is on record.
import type { Entry } from '../../contract/answers';
import { inForce, ofKind, type EntryOf } from '../../domain/force';
import { fact, type Body } from '../../domain/facts';

type Added = EntryOf<'room-added'>;
type RoomBody = Body<'room-added'>;

export interface Correction {
  entry: number;
  kind: 'room-added';
  day?: string;
  body: RoomBody;
}

export const correction = (added: Added, changed: Partial<RoomBody>): Correction => ({
  entry: added.id,
  ...fact('room-added', { ...added.fact, ...changed }, added.day),
});

export const roomEntry = (entries: readonly Entry[], room: string): Added | undefined =>
  ofKind(inForce(entries), 'room-added').find((one) => one.fact.room === room);

/** Corrections after which exactly the `wanted` rooms open into `room`. A door is on record with the later room. */
export function correctDoors(
  entries: readonly Entry[],
  room: string,
  wanted: ReadonlySet<string>,
): Correction[] {
  const added = ofKind(inForce(entries), 'room-added');
  const own = added.findIndex((one) => one.fact.room === room);
  return added.flatMap((one, at) => {
    const others = one.fact.adjoining.filter((other) => other !== room);
    const adjoining =
      at === own
        ? added
            .slice(0, at)
            .map((before) => before.fact.room)
            .filter((other) => wanted.has(other))
        : at > own && wanted.has(one.fact.room)
          ? [...others, room]
          : others;
    const isSame = [...adjoining].sort().join() === [...one.fact.adjoining].sort().join();
    return isSame ? [] : [correction(one, { adjoining })];
  });
}
