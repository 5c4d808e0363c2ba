import { describe, expect, it } from 'vitest';
import { layOut, moves, stepped, type Stand } from './layout';

const stands: Record<string, Stand> = {
  a: { rack: 'door', level: 1, position: 1 },
  b: { rack: 'door', level: 2, position: 3 },
};
const standOf = (id: string): Stand | null => stands[id] ?? null;
const tubs = ['a', 'b', 'c'].map((enclosure) => ({ enclosure }));
const { racks, elsewhere } = layOut(tubs, standOf, ['window']);
const bodies = (id: string, to: Stand) => moves(id, to, standOf, racks[0]).map(({ body }) => body);

describe('where enclosures stand', () => {
  it('is drawn as wide and as high as what stands in a rack', () => {
    expect(racks.map(({ rack, levels, positions }) => [rack, levels, positions])).toEqual([
      ['door', 2, 3],
      ['window', 0, 0],
    ]);
    expect(racks[0]?.at(2, 3)).toEqual([{ enclosure: 'b' }]);
    expect(elsewhere).toEqual([{ enclosure: 'c' }]);
  });
  it('goes on record for whoever is moved, and for nobody else', () => {
    const to = { rack: 'door', level: 1, position: 2 };
    expect(bodies('a', to)).toEqual([{ enclosure: 'a', ...to }]);
  });
  it('is exchanged with whoever stands there', () => {
    expect(bodies('a', stands['b']!)).toEqual([
      { enclosure: 'a', ...stands['b'] },
      { enclosure: 'b', ...stands['a'] },
    ]);
  });
  it('sends whoever stands there to the end where the other comes from no rack', () => {
    expect(bodies('c', stands['b']!)).toEqual([
      { enclosure: 'c', ...stands['b'] },
      { enclosure: 'b', rack: 'door', level: 2, position: 4 },
    ]);
  });
  it('is chosen with the arrows, from rack to rack and not beyond', () => {
    expect(stepped('ArrowDown', null, racks)).toEqual({ rack: 'door', level: 1, position: 1 });
    expect(stepped('ArrowRight', stands['b']!, racks)).toEqual({ rack: 'door', level: 2, position: 4 });
    expect(stepped('ArrowRight', { rack: 'door', level: 1, position: 4 }, racks)?.rack).toBe('window');
    expect(stepped('ArrowLeft', { rack: 'window', level: 1, position: 1 }, racks)).toEqual({
      rack: 'door',
      level: 1,
      position: 4,
    });
    expect(stepped('ArrowUp', stands['a']!, racks)).toEqual(stands['a']);
    expect(stepped('Enter', stands['a']!, racks)).toBeNull();
  });
});
