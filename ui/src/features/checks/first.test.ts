import { describe, expect, it } from 'vitest';
import { firstChecks } from './first';

type Checks = Parameters<typeof firstChecks>[0];
const check = (enclosures: string[], finds_if_left: number, day = '2026-12-04', method = 'look-over') =>
  ({ enclosures, finds_if_left, day, method }) as unknown as Checks[number];

describe('what to check first', () => {
  it('is of one day and one way, in the order of the answer', () => {
    const found = firstChecks(
      [
        check(['a'], 0.4),
        check(['b'], 0.3, '2026-12-05'),
        check(['c'], 0.2, '2026-12-04', 'soak'),
        check(['d'], 0.1),
      ],
      3,
    );
    expect(found).toEqual({
      checks: [
        { enclosure: 'a', shows: 0.4 },
        { enclosure: 'd', shows: 0.1 },
      ],
      day: '2026-12-04',
      by: 'look-over',
    });
  });
  it('counts each place of which the same is known, and no more than are wanted', () => {
    expect(
      firstChecks([check(['a', 'b'], 0.4), check(['c', 'd'], 0.2)], 3)?.checks.map((one) => one.enclosure),
    ).toEqual(['a', 'b', 'c']);
  });
  it('is nothing where nothing may be checked', () => expect(firstChecks([], 3)).toBeNull());
});
