import { describe, expect, it } from 'vitest';
import { swapped } from './order';

describe('an order', () => {
  it('is changed by neighbours', () => {
    expect(swapped(['a', 'b', 'c'], 0)).toEqual(['b', 'a', 'c']);
    expect(swapped(['a', 'b', 'c'], 2)).toEqual(['a', 'b', 'c']);
    expect(swapped(['a', 'b'], -1)).toEqual(['a', 'b']);
  });
});
