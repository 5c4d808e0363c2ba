import { describe, expect, it } from 'vitest';
import { marksWithin } from './chart';

describe('a chart', () => {
  it('draws no day of a round before its first or after its last day', () => {
    expect(marksWithin([1, 10, 15, 20, 21], [10, 12, 20])).toEqual([10, 15, 20]);
    expect(marksWithin([1], [])).toEqual([]);
  });
});
