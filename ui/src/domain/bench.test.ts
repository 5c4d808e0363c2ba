import { describe, expect, it } from 'vitest';
import { benchBody, benchQuery, usualBench } from './bench';

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
});
