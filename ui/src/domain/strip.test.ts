import { describe, expect, it } from 'vitest';
import {
  daysToFirstEggs,
  eggsIn,
  eggsStill,
  hardest,
  lifeOf,
  moved,
  othersIn,
  passingsOf,
  type Strip,
} from './strip';

const stages = (egg: number, larva = 0, adult = 0) => ({ egg, larva, protonymph: 0, deutonymph: 0, adult });
const shares = (egg = 0, larva = 0, adult = 0) => ({
  egg: stages(egg),
  later: stages(0, larva),
  laid_since: stages(egg / 2, 0, adult),
});
const band = (mean: number) => ({ mean, p10: mean, p90: mean });
const told: Strip['enclosures'][number] = {
  enclosure: 'a',
  day_c: 30,
  night_c: 28,
  stages: (['egg', 'larva', 'protonymph', 'deutonymph', 'adult'] as const).map((stage, index) => ({
    stage,
    days: { mean: index + 1, p10: index, p90: index + 2 },
  })),
  rounds: ['2026-11-25', '2026-12-02'].map((day, index) => ({
    day,
    own_date: false,
    methods: ['spray-bedding'],
    before: shares(index === 0 ? 0.4 : 0.1, 0.3, 0.1),
    after: shares(index === 0 ? 0.4 : 0.1, 0.1),
    caught: band(0.3),
    passed: band(0.6),
  })),
  checks: [],
};

describe('what a round catches and what passes under it', () => {
  it('is told of 100 alive on day 0, whatever they were then', () => {
    expect(eggsIn(shares(0.4))).toBeCloseTo(60);
    expect(othersIn(shares(0.4, 0.3, 0.1))).toBeCloseTo(40);
    const [first, second] = passingsOf(told, '2026-11-25');
    expect(first).toMatchObject({ at: 0, caught: 30 });
    expect(second?.at).toBe(7);
    expect(first?.othersAfter).toBeCloseTo(10);
    expect(eggsStill(told)).toBeCloseTo(10);
  });

  it('has a life as long as its parts, and none where it is too cold for one of them', () => {
    expect(daysToFirstEggs(told)).toBe(15);
    const cold = {
      ...told,
      stages: told.stages.map((one) => (one.stage === 'larva' ? { ...one, days: null } : one)),
    };
    expect(lifeOf(cold)).toEqual([{ stage: 'egg', from: 0, to: 1 }]);
    expect(daysToFirstEggs(cold)).toBeNull();
  });
});

describe('the enclosure that is shown first', () => {
  it('is the one with more alive after the last round', () => {
    const easier = { ...told, rounds: told.rounds.map((gate) => ({ ...gate, after: shares() })) };
    expect(hardest([easier, told])).toBe(1);
    expect(hardest([told, easier])).toBe(0);
    expect(hardest([])).toBe(0);
  });
});

describe('a round that is moved', () => {
  const days = ['2026-11-25', '2026-11-29', '2026-12-06'];
  it('goes a day on or back, and the others stay', () => {
    expect(moved(days, 2, 1, '2026-11-25')).toEqual(['2026-11-25', '2026-11-29', '2026-12-07']);
  });
  it('never closer to another than the program takes, and never before today', () => {
    expect(moved(days, 1, -1, '2026-11-25')).toEqual(['2026-11-25', '2026-11-28', '2026-12-06']);
    expect(moved(['2026-11-25', '2026-11-28'], 1, -1, '2026-11-25')).toBeNull();
    expect(moved(days, 0, -1, '2026-11-25')).toBeNull();
    expect(moved(days, 9, 1, '2026-11-25')).toBeNull();
  });
});
