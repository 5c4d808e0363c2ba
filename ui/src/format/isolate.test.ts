import { describe, expect, it } from 'vitest';
import { isolated } from '.';

describe('a name in a sentence', () => {
  it('comes back as it is, as most names do', () => {
    for (const name of ['Ada', 'Tub 2 (left)', 'Žofie', '蛇', '']) expect(isolated(name)).toBe(name);
  });
  it('from right to left stands in a line of its own direction', () => {
    for (const name of ['שלום', 'حية 3', 'Ada \u200F']) expect(isolated(name)).toBe(`\u2068${name}\u2069`);
  });
  it('cannot turn round what follows it, nor leave its own line', () => {
    expect(isolated('Ada\u202Etxt.')).toBe('\u2068Adatxt.\u2069');
    expect(isolated('\u2069\u2069Ada\u2066')).toBe('\u2068Ada\u2069');
  });
});
