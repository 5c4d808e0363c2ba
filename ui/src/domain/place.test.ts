import { describe, expect, it } from 'vitest';
import { codeIn, namesIn, readHash } from './place';

describe('an address', () => {
  it('lists names', () => {
    const query = new URLSearchParams('in=tub-1,tub-2&by=');
    expect(namesIn(query, 'in')).toEqual(['tub-1', 'tub-2']);
    expect(namesIn(query, 'by')).toEqual([]);
    expect(namesIn(query, 'at')).toEqual([]);
  });

  it('is read into its parts', () => {
    const place = readHash('#/animal/ada%20b?x=1');
    expect(place.parts).toEqual(['animal', 'ada b']);
    expect(place.query.get('x')).toBe('1');
    expect(readHash('').parts).toEqual([]);
  });

  it('that is broken is still read', () => {
    expect(readHash('#/%').parts).toEqual(['%']);
    expect(readHash('#/animal/%E0%A4%A?%').parts).toEqual(['animal', '%E0%A4%A']);
  });

  it('may bring a pairing code', () => {
    expect(codeIn('#pair=abcd-efgh')).toBe('abcd-efgh');
    expect(codeIn('#pair=%')).toBe('%');
    expect(codeIn('#pair=')).toBeNull();
    expect(codeIn('#/pair=abcd')).toBeNull();
  });
});
