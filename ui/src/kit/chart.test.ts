import { describe, expect, it } from 'vitest';
import { beyond, marksWithin } from './chart';

describe('a chart', () => {
  it('draws no day of a round before its first or after its last day', () => {
    expect(marksWithin([1, 10, 15, 20, 21], [10, 12, 20])).toEqual([10, 15, 20]);
    expect(marksWithin([1], [])).toEqual([]);
  });
});

it('is drawn with room for the markers at its ends, also where there is only one', () => {
  expect(beyond(0, 1)).toEqual([-0.03, 1.03]);
  expect(beyond(5, 5)).toEqual([4.97, 5.03]);
});
