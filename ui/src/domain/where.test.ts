import { describe, expect, it } from 'vitest';
import { seenWhereChoices } from '../contract/vocabulary';
import { recordedAs, spotIn, spots } from './where';

describe('a place on the drawing', () => {
  it('reaches every place the records know, and no other', () => {
    expect(new Set(spots.map((spot) => recordedAs[spot]))).toEqual(new Set(seenWhereChoices));
  });

  it('is on the animal where it is a part of it', () => {
    // Where mites sit on a snake: gular fold, eye rims, heat pits, mouth corners, vent, lower scale rows
    // (Wozniak & DeNardo 2000).
    for (const spot of [
      'chin-groove',
      'eye-rims',
      'heat-pits',
      'mouth-corners',
      'vent',
      'lowest-scales',
    ] as const)
      expect(recordedAs[spot]).toBe('on-animal');
  });

  it('is read from an address, and a mistyped one is none', () => {
    expect(spotIn(new URLSearchParams('on=vent'))).toBe('vent');
    expect(spotIn(new URLSearchParams('on=moon'))).toBeNull();
    expect(spotIn(new URLSearchParams(''))).toBeNull();
  });
});
