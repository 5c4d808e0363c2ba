import { describe, expect, it } from 'vitest';
import { along, pointOf, ribs, strip, type Tube } from './tube';

const straight: Tube = { from: 0, to: 100, middle: 50, swing: 0, turns: 1, thick: 20, tail: 0.5 };

describe('the body of a snake', () => {
  it('lies along its axis, half its thickness to either side', () => {
    expect(pointOf(straight, 0.25, 0)).toEqual([25, 50]);
    expect(pointOf(straight, 0.25, 1)).toEqual([25, 60]);
    expect(pointOf(straight, 0.25, -1)).toEqual([25, 40]);
  });

  it('is as thick across where it winds, and thin at its end', () => {
    const winding = { ...straight, swing: 15, turns: 1.5 };
    for (const t of [0, 0.1, 0.3, 0.5]) {
      const [back, belly] = [pointOf(winding, t, -1), pointOf(winding, t, 1)];
      expect(Math.hypot(belly[0] - back[0], belly[1] - back[1])).toBeCloseTo(20, 9);
    }
    // 0.06 of half of 20 to either side.
    expect(pointOf(straight, 1, 1)[1] - pointOf(straight, 1, -1)[1]).toBeCloseTo(1.2, 9);
  });

  it('is drawn as one closed outline, with lines across', () => {
    expect(strip(straight, [-1, 1], [0, 0.5])).toMatch(/^M0\.0 40\.0L.*L0\.0 60\.0Z$/);
    expect(along(straight, -1, [0, 0.04])).toBe('M0.0 40.0L1.0 40.0L2.0 40.0L3.0 40.0L4.0 40.0');
    // At three quarters the half of what tapers is behind: 10 (1 - 0.5 ** 1.3) = 5.94.
    expect(ribs(straight, [0, 1], 2)).toBe('M25.0 50.0L25.0 60.0M75.0 50.0L75.0 55.9');
  });
});
