import { describe, expect, it } from 'vitest';
import type { Entry } from '../src/contract/answers';
import { departedBy, namesOf } from '../src/domain/departed';
import { inForce } from '../src/domain/force';
import { correctDoors, roomEntry } from '../src/features/room/doors';
import { swapped } from '../src/features/contact/order';

const room = (id: number, name: string, adjoining: string[] = [], corrects: number | null = null): Entry =>
  ({
    id,
    day: '2026-01-01',
    kind: 'room-added',
    corrects,
    fact: { room: name, name, adjoining },
  }) as unknown as Entry;

describe('doors between rooms', () => {
  const journal = [room(1, 'a'), room(2, 'b'), room(3, 'c', ['a'])];
  const told = (wanted: string[], of: string) =>
    correctDoors(journal, of, new Set(wanted)).map((one) => [one.entry, one.body.adjoining]);

  it('are put on record with the room that came later', () => {
    expect(told(['b', 'c'], 'a')).toEqual([[2, ['a']]]);
    expect(told(['a', 'b'], 'c')).toEqual([[3, ['a', 'b']]]);
  });

  it('are taken away from where they are on record', () => {
    expect(told([], 'a')).toEqual([[3, []]]);
    expect(told([], 'c')).toEqual([[3, []]]);
  });

  it('that are right already change nothing', () => {
    expect(told(['c'], 'a')).toEqual([]);
    expect(told([], 'b')).toEqual([]);
  });

  it('go by the corrected entry, in the place of the first', () => {
    const corrected = [room(1, 'a'), room(2, 'b'), room(3, 'a', [], 1)];
    expect(correctDoors(corrected, 'a', new Set(['b'])).map((one) => one.entry)).toEqual([2]);
    expect(roomEntry(corrected, 'a')?.id).toBe(3);
  });
});

describe('the journal as it stands', () => {
  it('leaves out what was replaced or withdrawn', () => {
    const withdrawn = { ...room(3, 'x', [], 2), kind: 'withdrawn' } as unknown as Entry;
    expect(inForce([room(1, 'a'), room(2, 'b'), withdrawn]).map((one) => one.id)).toEqual([1]);
  });
});

describe('an order', () => {
  it('is changed by neighbours', () => {
    expect(swapped(['a', 'b', 'c'], 0)).toEqual(['b', 'a', 'c']);
    expect(swapped(['a', 'b', 'c'], 2)).toEqual(['a', 'b', 'c']);
    expect(swapped(['a', 'b'], -1)).toEqual(['a', 'b']);
  });
});

describe('an animal that has left', () => {
  const entry = (id: number, kind: string, day: string, fact: object): Entry =>
    ({ id, kind, day, corrects: null, fact: { animal: 'moss', ...fact } }) as unknown as Entry;
  const came = entry(1, 'animal-arrived', '2026-01-01', { name: 'Moss', taxon: 'ball python' });
  const left = entry(2, 'animal-left', '2026-11-26', { reason: 'sold' });

  it('is still told by its history', () => {
    expect(departedBy([came, left], 'moss')).toEqual({
      name: 'Moss',
      kind: 'ball python',
      day: '2026-11-26',
      reason: 'sold',
    });
    expect(namesOf([came, left]).get('moss')).toBe('Moss');
  });

  it('is here again when it came back, or never left', () => {
    expect(departedBy([came, left, { ...came, id: 3, day: '2026-12-01' }], 'moss')).toBeNull();
    expect(departedBy([came], 'moss')).toBeNull();
    expect(departedBy([], 'moss')).toBeNull();
  });
});
