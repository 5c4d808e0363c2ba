import { describe, expect, it } from 'vitest';
import { Keys, newKey } from './keys';

describe('the key of a request', () => {
  let drawn = 0;
  const draw = (): string => `key ${(drawn += 1)}`;

  it('is another one each time', () => {
    expect(new Set(Array.from({ length: 1000 }, newKey)).size).toBe(1000);
  });

  it('stays while no answer came, and is drawn anew once one did', () => {
    const keys = new Keys(draw);
    const body = { facts: [{ kind: 'weighed' }] };
    const first = keys.of('record', body);
    expect(keys.of('record', { facts: [{ kind: 'weighed' }] })).toBe(first);
    keys.answered('record', body);
    expect(keys.of('record', body)).not.toBe(first);
  });

  it('is never that of something else', () => {
    const keys = new Keys(draw);
    const asked = [
      keys.of('tick', { key: 'a' }),
      keys.of('tick', { key: 'b' }),
      keys.of('skip', { key: 'a' }),
    ];
    expect(new Set(asked).size).toBe(3);
  });
});
