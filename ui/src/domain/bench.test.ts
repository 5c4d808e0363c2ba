import { describe, expect, it } from 'vitest';
import {
  benchBody,
  benchQuery,
  isBottleChosen,
  showPackage,
  sizeOf,
  spoonsKept,
  strengthTyped,
  takeBottle,
  takeOther,
  usualBench,
  withPoint,
} from './bench';

describe('the bench', () => {
  it('is asked the same way by query and by body', () => {
    const bench = {
      ...usualBench,
      stock: '1,87',
      stockUnit: '% w/v' as const,
      syringes: [],
      spoons: ['1 US tsp' as const, '1/2 US tsp' as const],
      preserved: true,
    };
    expect(benchQuery(bench)).toEqual({
      stock: '1.87 % w/v',
      spoon: ['1 US tsp', '1/2 US tsp'],
      preserved: '1',
      no_syringes: '1',
    });
    expect(benchBody(bench)).toEqual({
      stock: '1.87 % w/v',
      spoon: ['1 US tsp', '1/2 US tsp'],
      preserved: true,
      no_syringes: true,
    });
  });

  it('keeps the spoons that an earlier version kept, and none that is not known', () => {
    expect(spoonsKept(['metric_spoons', 'us_spoons', '1/4 US tsp', 'ladle'])).toEqual([
      '1 US tsp',
      '1/4 US tsp',
      '5 mL',
    ]);
    expect(spoonsKept(['us_tablespoons', '1 US tbsp'])).toEqual(['1 US tbsp']);
    expect(spoonsKept([])).toEqual([]);
  });

  it('is asked with the bottle that was chosen, and nothing is chosen by itself', () => {
    const stocks = [
      { stock: 'iver-1', strength_mg_per_l: 10_000, expires: '2027-06-30' },
      { stock: 'iver-2', strength_mg_per_l: 18_700, expires: null },
    ];
    const bench = { ...usualBench, syringes: ['1 mL/0.01 mL'] };
    expect(isBottleChosen(bench, [])).toBe(true);
    expect(isBottleChosen(bench, stocks)).toBe(false);
    takeBottle(bench, stocks[1]!);
    expect(isBottleChosen(bench, stocks)).toBe(true);
    expect(benchQuery(bench)).toEqual({ from: 'iver-2', syringe: ['1 mL/0.01 mL'] });
    expect(bench.stock).toBe('18.7');
    expect(isBottleChosen(bench, stocks.slice(0, 1)), 'the bottle is empty').toBe(false);
    takeOther(bench);
    expect(isBottleChosen(bench, stocks)).toBe(true);
    expect(bench.stockRead, 'its label is read anew').toBe(false);
  });

  it('puts a strength on record in mg/L', () => {
    const typed = (stock: string, stockUnit: (typeof usualBench)['stockUnit']): number | null =>
      strengthTyped({ ...usualBench, stock, stockUnit });
    expect(typed('1.87', '% w/v')).toBe(18_700);
    expect(typed('18,7', 'mg/mL')).toBe(18_700);
    expect(typed('10', 'g/L')).toBe(10_000);
    expect(typed('10000', 'mg/L')).toBe(10_000);
    expect(typed('ten', 'mg/L')).toBeNull();
  });

  it('is told as people say it, and asked for in digits and points', () => {
    expect(sizeOf('10 mL/0.5 mL')).toBe('10 mL');
    expect(sizeOf('jug')).toBe('jug');
    expect(showPackage('50 mL=18.90 EUR')).toBe('50 mL, 18.90 EUR');
    expect(withPoint(' 1,5 ')).toBe('1.5');
  });
});
