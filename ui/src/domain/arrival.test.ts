import { describe, expect, it } from 'vitest';
import type { Entry } from '../contract/answers';
import { arrivalOf, putRight } from './arrival';

const arrival = (id: number, name: string, corrects: number | null = null): Entry =>
  ({
    ...{ id, day: '2026-01-02', recorded_at: '', kind: 'animal-arrived', corrects },
    fact: { animal: 'moss', name, taxon: 'corn snake', origin: null, enclosure: 'a', quarantine: true },
  }) as unknown as Entry;

describe('the arrival of an animal', () => {
  const entries = [arrival(1, 'Mos'), arrival(2, 'Moss', 1)];
  it('is the one that stands, and none of another animal', () => {
    expect(arrivalOf(entries, 'moss')?.id).toBe(2);
    expect(arrivalOf(entries, 'bo')).toBeUndefined();
  });
  it('keeps what is not put right, and its day', () => {
    expect(putRight(arrivalOf(entries, 'moss')!, ' ', 'ball python')).toEqual({
      entry: 2,
      kind: 'animal-arrived',
      day: '2026-01-02',
      body: {
        ...{ animal: 'moss', name: 'Moss', taxon: 'ball python', origin: '' },
        ...{ enclosure: 'a', quarantine: true },
      },
    });
  });
});
