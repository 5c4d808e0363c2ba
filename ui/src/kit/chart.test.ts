import { describe, expect, it } from 'vitest';
import { bandOf, beyond, lineOf, marksWithin, nearest, ticksOfDays, ticksWithin } from './chart';

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

it('has round figures at its axes, never more than there is room for', () => {
  expect(ticksWithin(0, 1.03, 6)).toEqual([0, 0.2, 0.4, 0.6, 0.8, 1]);
  expect(ticksWithin(-0.5, 37, 6)).toEqual([0, 10, 20, 30]);
  expect(ticksWithin(0, 0.003, 6)).toEqual([0, 0.0005, 0.001, 0.0015, 0.002, 0.0025, 0.003]);
  for (const most of [1, 3, 7]) expect(ticksWithin(0, 123, most).length).toBeLessThanOrEqual(most + 1);
});

it('has whole days at its axis, weeks where days are too many', () => {
  const day = 86_400;
  expect(ticksOfDays(10 * day, 14 * day, 4)).toEqual([10, 11, 12, 13, 14].map((one) => one * day));
  expect(ticksOfDays(10.2 * day, 40 * day, 5)).toEqual([11, 18, 25, 32, 39].map((one) => one * day));
});

it('is broken where nothing is known', () => {
  expect(lineOf([[0, 1], [2, 3], null, [4, 5]])).toBe('M0 1L2 3M4 5');
  expect(lineOf([null])).toBe('');
  expect(
    bandOf(
      [[0, 1], [2, 1], null, [4, 1]],
      [
        [0, 9],
        [2, 9],
        [3, 9],
        [4, 9],
      ],
    ),
  ).toBe('M0 9L2 9L2 1L0 1ZM4 9L4 1Z');
});

it('tells of what is nearest to the finger', () => {
  expect(nearest([0, 10, 20], 14)).toBe(1);
  expect(nearest([], 3)).toBeNull();
});
