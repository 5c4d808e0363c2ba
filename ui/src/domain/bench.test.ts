import { describe, expect, it } from 'vitest';
import { benchBody, benchQuery, showPackage, sizeOf, spoonsKept, usualBench, withPoint } from './bench';

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

  it('is told as people say it, and asked for in digits and points', () => {
    expect(sizeOf('10 mL/0.5 mL')).toBe('10 mL');
    expect(sizeOf('jug')).toBe('jug');
    expect(showPackage('50 mL=18.90 EUR')).toBe('50 mL, 18.90 EUR');
    expect(withPoint(' 1,5 ')).toBe('1.5');
  });
});
