// The paths of mites as a tree: where they were seen, and from there each place with the way that leads to it.
import type { Exposed, Reached } from './exposure';

export type Way = Exposed['path'][number]['kind'];

export interface Place {
  /** Enclosures told together; of the outside none. */
  enclosures: string[];
  room: string | null;
  chance: number;
  isSeen: boolean;
  /** How mites came here, and the row of the place they came from; null: a beginning. */
  way: Way | null;
  from: number | null;
  depth: number;
}

/** More is told in the list below. */
export const mostPlaces = 10;

const last = (row: Exposed) => row.path[row.path.length - 1];

/** Places in the order they are drawn: each below the one mites came from, the likeliest first. */
export function mapOf(seen: readonly Exposed[], reached: readonly Reached[]): Place[] {
  const places: Place[] = [];
  const left = new Set(reached);

  function add(place: Place, ids: readonly string[]): void {
    if (places.length >= mostPlaces) return;
    const row = places.push(place) - 1;
    for (const group of [...left]) {
      const step = last(group.example);
      if (step?.from == null || !ids.includes(step.from)) continue;
      left.delete(group);
      add(groupAt(group, step.kind, row, place.depth + 1), group.enclosures);
    }
  }
  const groupAt = (group: Reached, way: Way, from: number | null, depth: number): Place => {
    const { enclosures, room, chance } = group;
    return { enclosures, room, chance, isSeen: false, way, from, depth };
  };

  for (const { enclosure } of seen)
    add({ enclosures: [enclosure], room: null, chance: 1, isSeen: true, way: null, from: null, depth: 0 }, [
      enclosure,
    ]);
  const outside = [...left].filter((group) => last(group.example)?.kind === 'outside');
  for (const group of outside) {
    left.delete(group);
    add(groupAt(group, 'outside', null, 0), group.enclosures);
  }
  return places;
}
