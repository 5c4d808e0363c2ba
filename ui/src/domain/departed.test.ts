import { describe, expect, it } from 'vitest';
import type { Entry } from '../contract/answers';
import { departedBy, namesOf } from './departed';

describe('an animal that has left', () => {
  const entry = (id: number, kind: string, day: string, fact: object): Entry =>
    ({ id, kind, day, corrects: null, fact: { animal: 'moss', ...fact } }) as unknown as Entry;
  const came = entry(1, 'animal-arrived', '2026-01-01', { name: 'Moss', taxon: 'ball python' });
  const left = entry(2, 'animal-left', '2026-11-26', { reason: 'sold' });

  it('is still told by its history', () => {
    expect(departedBy([came, left], 'moss')).toEqual({
      name: 'Moss',
      kind: 'ball python',
      day: '2026-11-26',
      reason: 'sold',
    });
    expect(namesOf([came, left]).get('moss')).toBe('Moss');
  });

  it('is here again when it came back, or never left', () => {
    expect(departedBy([came, left, { ...came, id: 3, day: '2026-12-01' }], 'moss')).toBeNull();
    expect(departedBy([came], 'moss')).toBeNull();
    expect(departedBy([], 'moss')).toBeNull();
  });
});
