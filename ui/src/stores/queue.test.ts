import { beforeEach, describe, expect, it } from 'vitest';
import { newKey } from '../api/keys';
import { isReport, note, shelve, standing, unshelve, waiting, type Shelf } from './queue';

/** What a browser's storage does, in memory. */
class Box implements Shelf {
  private readonly kept = new Map<string, string>();
  get length(): number {
    return this.kept.size;
  }
  key(index: number): string | null {
    return [...this.kept.keys()][index] ?? null;
  }
  getItem(key: string): string | null {
    return this.kept.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    this.kept.set(key, value);
  }
  removeItem(key: string): void {
    this.kept.delete(key);
  }
}

describe('ticks that wait', () => {
  let box: Box;
  beforeEach(() => (box = new Box()));
  const tick = (key: string) => ({ key, day: '2026-11-25' });

  it('keep the order in which they were made', () => {
    shelve(box, tick('b'), 2000, 'x');
    shelve(box, tick('a'), 10_000, 'x');
    shelve(box, tick('c'), 999, 'x');
    expect(waiting(box).map((one) => one.key)).toEqual(['c', 'b', 'a']);
  });

  it('survive a reload: all is in the storage', () => {
    shelve(box, { ...tick('a'), reason: 'no time' }, 1, 'x');
    expect(waiting(box)).toMatchObject([{ key: 'a', day: '2026-11-25', reason: 'no time' }]);
  });

  it('of two pages at the same instant are both kept', () => {
    shelve(box, tick('a'), 5, 'page one');
    shelve(box, tick('b'), 5, 'page two');
    expect(waiting(box)).toHaveLength(2);
  });

  it('go one by one, and leave other things alone', () => {
    box.setItem('mitefall.settings', '{}');
    const first = shelve(box, tick('a'), 1, 'x');
    shelve(box, tick('b'), 2, 'x');
    unshelve(box, first.id);
    expect(waiting(box).map((one) => one.key)).toEqual(['b']);
    expect(box.getItem('mitefall.settings')).toBe('{}');
  });

  it('keep the key of their request, whatever becomes of them', () => {
    const one = shelve(box, tick('a'), Date.UTC(2026, 10, 25), newKey());
    note(box, one, { tried: true });
    note(box, one, { tried: true, back: true });
    expect(standing(box, one.id)).toEqual({ ...one, tried: true, back: true });
    expect(waiting(box)).toHaveLength(1);
    // Letters, digits, hyphens and full stops, 16 to 64 (docs/web-api.md), with room for taking it back.
    expect(one.id).toMatch(/^[A-Za-z0-9.-]{16,63}$/);
    unshelve(box, one.id);
    expect(standing(box, one.id)).toBeNull();
  });

  it('and reports are told apart', () => {
    shelve(box, tick('a'), 1, 'x');
    shelve(box, { ...tick('a'), label: 'Ada reacted', facts: [] }, 2, 'x');
    expect(waiting(box).map(isReport)).toEqual([false, true]);
  });

  it('that cannot be read do not stop the others', () => {
    box.setItem('mitefall.tick.000000000000001.x', '{broken');
    box.setItem('mitefall.tick.000000000000002.x', '{"day":"2026-11-25"}');
    shelve(box, tick('a'), 3, 'x');
    expect(waiting(box).map((one) => one.key)).toEqual(['a']);
  });
});
