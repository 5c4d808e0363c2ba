import { describe, expect, it } from 'vitest';
import { bodyOf, lastPrey, lossOf, scaleOf } from './body';
import type { Entry } from '../contract/answers';

let id = 0;
const base = (day: string, corrects: number | null = null) => ({
  id: (id += 1),
  day,
  recorded_at: '2026-01-01T00:00:00Z',
  corrects,
});
const weighed = (day: string, mass_g: number, corrects: number | null = null): Entry => ({
  ...base(day, corrects),
  kind: 'weighed',
  fact: { animal: 'ivy', mass_g },
});
const meal = (day: string, prey: string | null, treated_prey = false): Entry => ({
  ...base(day),
  kind: 'meal',
  fact: { animal: 'ivy', outcome: 'eaten', prey, number: 1, mass_g: 20, treated_prey },
});

describe('weights and meals', () => {
  it('are those in force, by day', () => {
    const wrong = weighed('2026-01-05', 5000);
    const right = weighed('2026-01-05', 500, wrong.id);
    const { weights, meals } = bodyOf([
      wrong,
      right,
      meal('2026-01-06', 'mouse'),
      weighed('2026-01-01', 480),
    ]);
    expect(weights.map((one) => one.fact.mass_g)).toEqual([480, 500]);
    expect(meals).toHaveLength(1);
  });

  it('tell what is lost since the heaviest', () => {
    const { weights } = bodyOf([
      weighed('2026-01-01', 480),
      weighed('2026-02-01', 500),
      weighed('2026-03-01', 450),
    ]);
    expect(lossOf(weights)).toEqual({ grams: 50, part: 0.1, since: '2026-02-01' });
    expect(lossOf(weights.slice(0, 2))).toBeNull();
    expect(lossOf([])).toBeNull();
  });

  it('offer the last prey again, never one that was treated', () => {
    const { meals } = bodyOf([
      meal('2026-01-01', 'mouse'),
      meal('2026-01-08', 'rat', true),
      meal('2026-01-09', null),
    ]);
    expect(lastPrey(meals)?.prey).toBe('mouse');
    expect(lastPrey([])).toBeNull();
  });
});

describe('a scale', () => {
  it('has round steps that hold all values', () => {
    expect(scaleOf([480, 500])).toEqual({ low: 480, high: 500, ticks: [480, 500] });
    expect(scaleOf([450, 480, 500])).toEqual({ low: 440, high: 500, ticks: [440, 460, 480, 500] });
    expect(scaleOf([90]).low).toBeLessThanOrEqual(90);
    expect(scaleOf([90]).high).toBeGreaterThanOrEqual(90);
  });
});
