import { describe, expect, it } from 'vitest';
import { groupReached, pathText, type Exposed } from './exposure';

describe('exposure', () => {
  const step = (kind: string, from: string | null, to_room: string | null, text: string) => ({
    kind,
    from,
    to_room,
    text,
  });
  const row = (enclosure: string, chance: number, ...path: object[]): Exposed =>
    ({
      enclosure,
      sighted: false,
      chance,
      text: 'all',
      path: [step('sighted', null, null, 'seen'), ...path],
    }) as Exposed;

  it('tells enclosures reached alike on foot in one line', () => {
    const walked = (enclosure: string) => row(enclosure, 0.3, step('same-room', 'a-05', 'snakes', 'on foot'));
    const groups = groupReached([
      walked('a-01'),
      walked('a-02'),
      row('b-01', 0.3, step('moved-to', 'a-05', 'snakes', 'moved')),
    ]);
    expect(groups.map((group) => group.enclosures)).toEqual([['a-01', 'a-02'], ['b-01']]);
  });

  it('tells the path without the sighting it begins with', () => {
    expect(
      pathText(row('b', 0.1, step('moved-to', 'a', null, 'one'), step('handled-after', 'b', null, 'two'))),
    ).toBe('one; then two');
    expect(pathText(row('b', 0.1))).toBe('all');
  });
});
