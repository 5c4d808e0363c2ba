import { describe, expect, it } from 'vitest';
import type { JobResults } from '../../contract/answers';
import { countByRoom, isManyClean, lackingOf, tooEarly } from './record';

describe('a check', () => {
  it('takes nothing for granted', () => {
    expect(lackingOf(null, null, null, ['a'])).toBe('method');
    expect(lackingOf('look-over', null, null, ['a'])).toBe('count');
    expect(lackingOf('look-over', 'none', null, [])).toBe('enclosures');
    expect(lackingOf('look-over', 'none', null, ['a'])).toBeNull();
    expect(lackingOf('look-over', '2-10', null, ['a'])).toBe('where');
    expect(lackingOf('look-over', '2-10', 'on-paper', ['a'])).toBeNull();
  });

  it('is asked about once more when several are clean', () => {
    expect(isManyClean('none', ['a', 'b'])).toBe(true);
    expect(isManyClean('none', ['a'])).toBe(false);
    expect(isManyClean('1', ['a', 'b'])).toBe(false);
  });

  it('is counted by room', () => {
    const tubs = [
      { enclosure: 'a', room: 'snakes' },
      { enclosure: 'b', room: 'nursery' },
      { enclosure: 'c', room: 'snakes' },
    ];
    expect(countByRoom(['c', 'a'], tubs)).toEqual([{ room: 'snakes', count: 2 }]);
  });
});

describe('the end of a quarantine', () => {
  const result = (today: string, mean: number | null) =>
    ({
      today,
      usual_from: '2026-02-10',
      outlook: { points: [{ day: today, none: { clear: { mean, p10: null, p90: null } } }] },
    }) as unknown as JobResults['release'];

  it('is early before the usual time, and while the chance is below what is wanted', () => {
    expect(tooEarly(result('2026-02-09', 0.99))).toEqual(['time']);
    expect(tooEarly(result('2026-02-10', 0.9))).toEqual(['chance']);
    expect(tooEarly(result('2026-02-01', null))).toEqual(['time', 'chance']);
    expect(tooEarly(result('2026-02-10', 0.95))).toEqual([]);
  });
});
