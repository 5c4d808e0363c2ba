import type { Answers } from '../../contract/answers';
import { words } from '../../words/en';

export type Room = Answers['situation']['rooms'][number];
export type Tub = Room['enclosures'][number];
export type Filter = keyof typeof words.situation.filters;

const fits: Record<Filter, (tub: Tub) => boolean> = {
  all: () => true,
  exposed: (tub) => tub.danger !== 'healthy',
  due: (tub) => tub.due > 0,
  quarantine: (tub) => tub.quarantine,
};

const named = (tub: Tub, find: string): boolean =>
  [tub.name, tub.enclosure, ...tub.animals].some((name) => name.toLowerCase().includes(find));

const urgency = { healthy: 0, exposed: 1, sighted: 2 } as const;
const worst = (room: Room): number => Math.max(0, ...room.enclosures.map((tub) => urgency[tub.danger]));

/** Rooms with the enclosures that fit, those with mites first; rooms without any are left out. */
export function filterRooms(rooms: Room[], filter: Filter, find: string): Room[] {
  const wanted = find.trim().toLowerCase();
  return rooms
    .map((room) => ({
      ...room,
      enclosures: room.enclosures.filter((tub) => fits[filter](tub) && named(tub, wanted)),
    }))
    .filter((room) => room.enclosures.length > 0)
    .sort((a, b) => worst(b) - worst(a));
}

/** What must not wait first: mites seen, then exposed, then the likelier reached; names stay in their order. */
export const urgentFirst = (tubs: readonly Tub[]): Tub[] =>
  [...tubs].sort((a, b) => urgency[b.danger] - urgency[a.danger] || (b.exposure ?? 0) - (a.exposure ?? 0));

/** Those to look at first, `most` of them. */
export const mattering = (rooms: readonly Room[], thirsty: ReadonlySet<string>, most: number): Tub[] => {
  const matters = rooms
    .flatMap((room) => room.enclosures)
    .filter((tub) => tub.danger !== 'healthy' || thirsty.has(tub.enclosure));
  const dry = (tub: Tub): number => Number(thirsty.has(tub.enclosure));
  return urgentFirst(matters)
    .sort((a, b) => dry(b) - dry(a))
    .slice(0, most);
};

export function tallied(room: Room): string {
  const count = (danger: Tub['danger']) => room.enclosures.filter((tub) => tub.danger === danger).length;
  return words.situation.roomCount(count('exposed'), count('sighted'), room.enclosures.length);
}
