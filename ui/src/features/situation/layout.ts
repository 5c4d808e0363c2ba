// Where enclosures stand: racks of a room as they are drawn, and what is put on record when one is moved.
import type { Enclosure } from '../../contract/answers';
import { fact, type Fact } from '../../domain/facts';
import { sorted } from '../../domain/tables';

export type Stand = NonNullable<Enclosure['stand']>;
export type StandOf = (enclosure: string) => Stand | null;

export interface Rack<T> {
  rack: string;
  levels: number;
  positions: number;
  /** Whoever stands at a level and a position; two, where both were put there. */
  at: (level: number, position: number) => T[];
}
interface Placed {
  enclosure: string;
}

/** What stands in racks, and what does not; `named`: racks with nothing in them yet. */
export function layOut<T extends Placed>(
  tubs: readonly T[],
  standOf: StandOf,
  named: readonly string[] = [],
): { racks: Rack<T>[]; elsewhere: T[] } {
  const inRack = new Map<string, T[]>(named.map((rack) => [rack, []]));
  const elsewhere: T[] = [];
  for (const tub of tubs) {
    const stand = standOf(tub.enclosure);
    if (stand) inRack.set(stand.rack, [...(inRack.get(stand.rack) ?? []), tub]);
    else elsewhere.push(tub);
  }
  const most = (all: T[], of: 'level' | 'position'): number =>
    Math.max(0, ...all.map((tub) => standOf(tub.enclosure)?.[of] ?? 0));
  const racks = [...inRack].map(([rack, all]) => ({
    rack,
    levels: most(all, 'level'),
    positions: most(all, 'position'),
    at: (level: number, position: number) =>
      all.filter((tub) => {
        const stand = standOf(tub.enclosure);
        return stand?.level === level && stand.position === position;
      }),
  }));
  return { racks: sorted(racks, ({ rack }) => rack, false), elsewhere };
}

/** Puts an enclosure at a place. Whoever stands there changes places with it, or, where it comes from no rack, goes to
 * the end of the level. */
export function moves<T extends Placed>(
  enclosure: string,
  to: Stand,
  standOf: StandOf,
  rack: Rack<T> | undefined,
): Fact[] {
  const stand = (of: string, at: Stand): Fact => fact('enclosure-stands', { enclosure: of, ...at });
  const from = standOf(enclosure);
  const there = rack?.at(to.level, to.position).find((one) => one.enclosure !== enclosure);
  const end = { ...to, position: (rack?.positions ?? 0) + 1 };
  return [stand(enclosure, to), ...(there ? [stand(there.enclosure, from ?? end)] : [])];
}

const steps: Record<string, readonly [number, number]> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/** The place one step on by an arrow key, within the racks and one beyond their ends; over the edge to the rack beside. */
export function stepped<T>(key: string, at: Stand | null, racks: readonly Rack<T>[]): Stand | null {
  const first = racks[0];
  if (!first || !Object.hasOwn(steps, key)) return null;
  if (!at) return { rack: first.rack, level: 1, position: 1 };
  const [down, right] = steps[key]!;
  const index = racks.findIndex(({ rack }) => rack === at.rack);
  const here = racks[index] ?? first;
  const next = { ...at, level: at.level + down, position: at.position + right };
  const beside = (way: 1 | -1, edge: (rack: Rack<T>) => Partial<Stand>): Stand => {
    const other = racks[index + way];
    return other ? { ...at, rack: other.rack, ...edge(other) } : at;
  };
  if (next.position > here.positions + 1) return beside(1, () => ({ position: 1 }));
  if (next.position < 1) return beside(-1, (rack) => ({ position: rack.positions + 1 }));
  if (next.level > here.levels + 1) return beside(1, () => ({ level: 1 }));
  if (next.level < 1) return beside(-1, (rack) => ({ level: rack.levels + 1 }));
  return next;
}
