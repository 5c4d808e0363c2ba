import { describe, expect, it } from 'vitest';
import { usualBench } from './bench';
import { mlPerSquirt, squirtsOf } from './squirts';

const bench = (squirts: string, squirtsMl: string) => ({ ...usualBench, squirts, squirtsMl });

describe('squirts of the bottle at hand', () => {
  it('are told only once they were counted', () => {
    expect(squirtsOf(10, usualBench)).toBeNull();
    expect(mlPerSquirt(bench('25', ''))).toBeNull();
  });
  it('are rounded down and say what they come to', () => {
    // By hand: 20 mL in 25 squirts are 0.8 mL each; 23 mL hold 28 of them, 22.4 mL.
    expect(squirtsOf(23, bench('25', '20'))).toEqual({ number: 28, ml: 28 * 0.8 });
    expect(squirtsOf(0.3, bench('10', '1'))?.number).toBe(3);
    expect(squirtsOf(0.5, bench('25', '20'))).toEqual({ number: 0, ml: 0 });
  });
  it('of an impossible size are not believed', () => {
    for (const [squirts, ml] of [
      ['0', '20'],
      ['1', '20'],
      ['1000', '20'],
      ['x', '20'],
    ] as const)
      expect(squirtsOf(10, bench(squirts, ml))).toBeNull();
  });
});
