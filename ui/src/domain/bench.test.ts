import { describe, expect, it } from 'vitest';
import { benchBody, benchQuery, showPackage, sizeOf, usualBench, withPoint } from './bench';

describe('the bench', () => {
  it('is asked the same way by query and by body', () => {
    const bench = {
      ...usualBench,
      stock: '1,87',
      stockUnit: '% w/v' as const,
      syringes: [],
      spoons: ['us_spoons' as const],
      preserved: true,
    };
    expect(benchQuery(bench)).toEqual({
      stock: '1.87 % w/v',
      us_spoons: '1',
      preserved: '1',
      no_syringes: '1',
    });
    expect(benchBody(bench)).toEqual({
      stock: '1.87 % w/v',
      us_spoons: true,
      preserved: true,
      no_syringes: true,
    });
  });

  it('is told as people say it, and asked for in digits and points', () => {
    expect(sizeOf('10 mL/0.5 mL')).toBe('10 mL');
    expect(sizeOf('jug')).toBe('jug');
    expect(showPackage('50 mL=18.90 EUR')).toBe('50 mL, 18.90 EUR');
    expect(withPoint(' 1,5 ')).toBe('1.5');
  });
});
