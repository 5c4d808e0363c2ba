import { describe, expect, it } from 'vitest';
import { groupReached, type Exposed } from './exposure';
import { mapOf, mostPlaces } from './map';

const row = (enclosure: string, chance: number, ...path: [kind: string, from: string | null][]): Exposed =>
  ({
    enclosure,
    chance,
    sighted: path.length === 0,
    text: '',
    path: [
      { kind: 'sighted', from: null, to_room: null, text: '' },
      ...path.map(([kind, from]) => ({ kind, from, to_room: 'snakes', text: '' })),
    ],
  }) as Exposed;

describe('the map of paths', () => {
  const seen = [row('a', 1)];

  it('has each place below the one mites came from, with the way', () => {
    const reached = groupReached([
      row('b', 0.9, ['moved-to', 'a']),
      row('c', 0.5, ['shared-bag', 'a']),
      row('d', 0.4, ['moved-to', 'a'], ['shared-item', 'b']),
    ]);
    expect(
      mapOf(seen, reached).map(({ enclosures, way, from, depth }) => [enclosures, way, from, depth]),
    ).toEqual([
      [['a'], null, null, 0],
      [['b'], 'moved-to', 0, 1],
      [['d'], 'shared-item', 1, 2],
      [['c'], 'shared-bag', 0, 1],
    ]);
  });

  it('takes those reached alike on foot together, and what came from outside as a beginning', () => {
    const reached = groupReached([
      row('b', 0.3, ['same-room', 'a']),
      row('c', 0.3, ['same-room', 'a']),
      row('q', 0.2, ['outside', null]),
    ]);
    expect(mapOf(seen, reached).map(({ enclosures, way, from }) => [enclosures, way, from])).toEqual([
      [['a'], null, null],
      [['b', 'c'], 'same-room', 0],
      [['q'], 'outside', null],
    ]);
  });

  it('draws no more than can be read; the list has all', () => {
    const reached = Array.from({ length: 30 }, (_, at) => row(`b-${at}`, 0.9 - at / 100, ['moved-to', 'a']));
    expect(mapOf(seen, groupReached(reached))).toHaveLength(mostPlaces);
  });
});
