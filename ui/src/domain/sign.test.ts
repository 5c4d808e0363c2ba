import { describe, expect, it } from 'vitest';
import { signWord } from './sign';

describe('the sign of an enclosure', () => {
  const clear = (mean: number | null) => ({ mean, p10: null, p90: null }) as never;
  it('promises nothing where mites may be left', () => {
    expect(signWord('healthy', clear(0.25))).toBe('None seen here');
    expect(signWord('healthy', clear(0.97))).toBe('No sign');
    expect(signWord('healthy', null)).toBe('No sign');
    expect(signWord('exposed', clear(0.25))).toBe('Exposed');
  });
});
