import { describe, expect, it } from 'vitest';
import { nameFor } from './facts';

describe('names on record', () => {
  it('are plain, and free', () => {
    expect(nameFor('Tub A 05', new Set())).toBe('tub-a-05');
    expect(nameFor('Größe', new Set())).toBe('gro-e');
    expect(nameFor('Ada', new Set(['ada', 'ada-2']))).toBe('ada-3');
    expect(nameFor('🐍', new Set())).toBe('x');
  });
});

describe('names on record', () => {
  it('are cut to what the journal allows, and differ', () => {
    const long = 'The old wooden vivarium in the corner behind the door';
    const first = nameFor(long, new Set());
    expect(first.length).toBeLessThanOrEqual(40);
    expect(first).toMatch(/^[a-z0-9-]+[a-z0-9]$/);
    const second = nameFor(long, new Set([first]));
    expect(second.length).toBeLessThanOrEqual(40);
    expect(second).not.toBe(first);
  });
});
