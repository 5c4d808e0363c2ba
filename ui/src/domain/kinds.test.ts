import { describe, expect, it } from 'vitest';
import { edits, fullName, keyOf, nearNames, lastWord } from './kinds';

describe('kinds', () => {
  const kind = (name: string, scientific: string) => ({
    name,
    scientific,
    group: 'snake',
    unidentified: false,
  });
  const ball = kind('ball python', 'Python regius');

  it('are one kind however they are written', () => {
    expect(keyOf(' Ball-Python')).toBe(keyOf('ball python'));
    expect(keyOf('ball')).not.toBe(keyOf('ball python'));
  });

  it('go on record by their full name only where a short name is plain', () => {
    expect(fullName('ball', { how: 'trade-name', kinds: [ball] })).toBe('ball python');
    expect(fullName('Python regius', { how: 'name', kinds: [ball] })).toBe('Python regius');
    const kings = [
      kind('California kingsnake', 'Lampropeltis californiae'),
      kind('king cobra', 'Ophiophagus hannah'),
    ];
    expect(fullName('king', { how: 'several', kinds: kings })).toBe('king');
    expect(fullName('gollywog', { how: 'unknown', kinds: [] })).toBe('gollywog');
    expect(fullName('ball', undefined)).toBe('ball');
  });

  it('have their last word looked up as well', () => {
    expect(lastWord('bal  pithon')).toBe('pithon');
    expect(lastWord('boa')).toBe('boa');
  });

  it('are told by the nearest names', () => {
    const names = ['corn snake', 'ball python', 'Angolan python', 'python', 'blood python'];
    expect(nearNames('bal pithon', names)[0]).toBe('ball python');
    expect(nearNames('ball python banana', names)[0]).toBe('ball python');
    expect(nearNames('corn snak', names, 1)).toEqual(['corn snake']);
    expect(edits('kitten', 'sitting')).toBe(3);
    expect(edits('', 'abc')).toBe(3);
  });
});
