import { describe, expect, it } from 'vitest';
import { matches, sorted } from './tables';

describe('tables', () => {
  it('are sorted as people sort', () => {
    expect(sorted(['Tub 10', 'tub 2', 'Tub 1'], (text) => text, false)).toEqual(['Tub 1', 'tub 2', 'Tub 10']);
    expect(sorted([3, 20, 1], (value) => value, true)).toEqual([20, 3, 1]);
  });

  it('are searched for every word', () => {
    expect(matches('Ada ball python Tub A 01', 'python ada')).toBe(true);
    expect(matches('Ada ball python Tub A 01', 'python bo')).toBe(false);
  });
});
