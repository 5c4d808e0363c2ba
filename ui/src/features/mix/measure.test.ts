import { describe, expect, it } from 'vitest';
import { filledTo, marksOf, scaleOf, spoonOf, type Measure } from './measure';

const measure = (tool: string, amount_ml: number): Measure => ({
  tool,
  spoon: false,
  spoon_part: null,
  amount_ml,
  times: 1,
});
const bench = {
  syringes: ['1 mL/0.01 mL', '10 mL/0.5 mL'],
  cups: ['30 mL/1 mL', '2 US fl oz/0.25 US fl oz'],
};
const of = (tool: string, ml: number) => {
  const scale = scaleOf(measure(tool, ml), bench);
  return scale && filledTo(measure(tool, ml), scale);
};

describe('a measure', () => {
  it('fills its tool to the mark', () => {
    // 9.5 of 10; 0.95 of 1; 19 of 30.
    expect(of('10 mL syringe', 9.5)).toBeCloseTo(0.95, 12);
    expect(of('1 mL syringe', 0.95)).toBeCloseTo(0.95, 12);
    expect(of('30 mL cup', 19)).toBeCloseTo(19 / 30, 12);
    // 1.5 US fl oz = 1.5 x 29.5735295625 = 44.36 mL (NIST Handbook 44) of 2: three quarters.
    expect(of('2 US fl oz cup', 44.36029434375)).toBeCloseTo(0.75, 9);
    expect(of('10 mL syringe', 10)).toBe(1);
  });

  it('is not drawn where the tool is not known for sure, or would not hold it', () => {
    expect(of('5 mL syringe', 2)).toBeNull();
    expect(of('10 mL syringe', 10.5)).toBeNull();
    expect(of('10 mL syringe', 0)).toBeNull();
    const twice = { syringes: ['10 mL/0.5 mL', '10 mL/1 mL'], cups: [] };
    expect(scaleOf(measure('10 mL syringe', 9.5), twice)).toBeNull();
    expect(scaleOf(measure('US teaspoon', 4.92892159375), bench)).toBeNull();
  });
});

describe('a spoon', () => {
  const spoon = (spoon_part: number | null) => ({ ...measure('spoon', 2.5), spoon: true, spoon_part });

  it('is as wide as its part of the whole bowl', () => {
    // A bowl of the same shape with half of what it holds is 0.7937 as wide: 0.7937 cubed is 0.5; of a quarter 0.62996.
    expect(spoonOf(spoon(1))).toEqual({ size: 'whole', scale: 1 });
    expect(spoonOf(spoon(0.5))).toMatchObject({ size: 'half' });
    expect(spoonOf(spoon(0.5))!.scale).toBeCloseTo(0.7937, 4);
    expect(spoonOf(spoon(0.25))).toMatchObject({ size: 'quarter' });
    expect(spoonOf(spoon(0.25))!.scale).toBeCloseTo(0.62996, 4);
  });

  it('of a part that is not known is not drawn, and what is no spoon is none', () => {
    expect(spoonOf(spoon(0.33))).toBeNull();
    expect(spoonOf(spoon(null))).toBeNull();
    expect(spoonOf(measure('1 mL syringe', 1))).toBeNull();
  });
});

describe('its marks', () => {
  const scale = (full: number, mark: number) =>
    ({ shape: 'syringe', full, mark, unit: 'mL', mlPerUnit: 1 }) as const;

  it('stand where they are printed', () => {
    // 10 mL in halves: 0, 0.5 ... 10 are 21 marks; 9.5 is the 20th, at 0.95 of its length. 10 / 6 = 1.7, so every 2 has its number.
    const marks = marksOf(scale(10, 0.5));
    expect(marks).toHaveLength(21);
    expect(marks[19]).toMatchObject({ value: 9.5, at: 0.95, named: false });
    expect(marks.filter(({ named }) => named).map(({ value }) => value)).toEqual([0, 2, 4, 6, 8, 10]);
  });

  it('are as many as there are up to a hundred, then every so many', () => {
    // 1 mL in hundredths: 101 marks, numbers every 0.2. 500 mL in ones: every fifth, 101.
    expect(marksOf(scale(1, 0.01))).toHaveLength(101);
    expect(marksOf(scale(1, 0.01)).filter(({ named }) => named)).toHaveLength(6);
    expect(marksOf(scale(500, 1))).toHaveLength(101);
    expect(marksOf(scale(500, 1))[1]!.value).toBe(5);
  });

  it('of a tool with one mark are empty and full', () => {
    expect(marksOf(scale(5, 5)).map(({ at, named }) => [at, named])).toEqual([
      [0, true],
      [1, true],
    ]);
  });
});
