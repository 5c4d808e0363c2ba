import { describe, expect, it } from 'vitest';
import { cardLong, least, most, placesAlong, stepped, ticksOf, widthOf } from './true-size';
import { things } from './things';

describe('true size', () => {
  it('knows the sizes that are written down', () => {
    // ISO/IEC 7810 ID-1: 3.370 by 2.125 inches nominal. 3.370 x 25.4 = 85.598, 2.125 x 25.4 = 53.975.
    expect(cardLong).toBeCloseTo(3.37 * 25.4, 1);
    expect(widthOf.card).toBeCloseTo(2.125 * 25.4, 1);
    // 31 U.S.C. 5112 (a)(2): 0.955 inch. 0.955 x 25.4 = 24.257.
    expect(widthOf.quarter).toBeCloseTo(0.955 * 25.4, 2);
    // Regulation (EU) No 729/2014, annex I: 1 euro, 23.25 mm.
    expect(widthOf['euro-1']).toBe(23.25);
  });

  it('is reached to half a hundredth from wherever one begins', () => {
    // A telephone with 160 pixels of the page to the inch: 160 / 25.4 = 6.299 for a millimetre; a browser begins at 96 / 25.4.
    const wanted = 160 / 25.4;
    let now = 96 / 25.4;
    let presses = 0;
    while (now < wanted / 1.005) {
      now = stepped(now, true);
      presses += 1;
    }
    expect(now / wanted).toBeGreaterThan(0.995);
    expect(now / wanted).toBeLessThan(1.005);
    // ln(160 / 96) / ln(1.01) = 51.3.
    expect(presses).toBe(51);
  });

  it('goes back by the key that is the other way, and stops at what no screen is', () => {
    expect(stepped(stepped(4, true), false)).toBeCloseTo(4, 12);
    expect(stepped(most, true)).toBe(most);
    expect(stepped(least, false)).toBe(least);
  });
});

describe('the ruler', () => {
  it('has a mark for each millimetre, and a number at every tenth', () => {
    const ticks = ticksOf(55);
    expect(ticks).toHaveLength(56);
    expect(ticks.filter(({ long }) => long)).toHaveLength(12);
    expect(ticks.flatMap(({ label }) => label ?? [])).toEqual(['0', '10', '20', '30', '40', '50']);
  });

  it('has room for each thing beside the next', () => {
    // Eleven things on 55 mm: one every 5 mm, from 2.5 on; the longest, a flake of 4 mm, leaves 1 mm to the next.
    expect(placesAlong(55, 11)).toEqual([2.5, 7.5, 12.5, 17.5, 22.5, 27.5, 32.5, 37.5, 42.5, 47.5, 52.5]);
    expect(things).toHaveLength(11);
    expect(Math.max(...things.map(({ mm }) => mm))).toBe(4);
  });
});

describe('what is drawn', () => {
  it('is drawn within the size that is told of it', () => {
    for (const { mm, low, high } of things) {
      expect(mm).toBeGreaterThanOrEqual(low);
      expect(mm).toBeLessThanOrEqual(high);
    }
  });

  it('has a fed mite that has grown as far as its weight', () => {
    // 50 micrograms hungry, 750 fed (encyclopedia article Ophionyssus natricis): a body of the same shape is the cube root of 15,
    // 2.47, times as long. It swells in width more than in length, so it is less long: between 1.7 and 2.5 times.
    const [fed, hungry] = ['mite-fed', 'mite-hungry'].map(
      (kind) => things.find((one) => one.kind === kind)!.mm,
    );
    expect(fed! / hungry!).toBeGreaterThan(1.7);
    expect(fed! / hungry!).toBeLessThan(Math.cbrt(750 / 50));
  });

  it('says where each size is from', () => {
    for (const { tag, source } of things)
      expect(tag === 'R' || tag === 'R2' ? source : 'no text named').toBeTruthy();
  });
});
