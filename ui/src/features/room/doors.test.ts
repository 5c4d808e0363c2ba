import { describe, expect, it } from 'vitest';
import { correctDoors, roomEntry } from './doors';
import { roomAdded } from '../../../test/journal';

describe('doors between rooms', () => {
  const journal = [roomAdded(1, 'a'), roomAdded(2, 'b'), roomAdded(3, 'c', ['a'])];
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
    const corrected = [roomAdded(1, 'a'), roomAdded(2, 'b'), roomAdded(3, 'a', [], 1)];
    expect(correctDoors(corrected, 'a', new Set(['b'])).map((one) => one.entry)).toEqual([2]);
    expect(roomEntry(corrected, 'a')?.id).toBe(3);
  });
});
