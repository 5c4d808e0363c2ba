// True size on a screen: things whose size is written down, held against a drawing.
export const objects = ['card', 'euro-1', 'quarter'] as const;
export type ObjectKind = (typeof objects)[number];

/** How wide the drawing is once it is right, mm. Of a card the short side: the long one is wider than a telephone. */
export const widthOf: Record<ObjectKind, number> = { card: 53.98, 'euro-1': 23.25, quarter: 24.26 };
/** The long side of a card, mm. */
export const cardLong = 85.6;

/** No screen is coarser or finer: 50 to 360 pixels of the page to the inch, made larger or smaller by its reader. */
export const [least, most] = [2, 14];

/** One press of a key: a hundredth of what is there, so that it can be made to fit within half a hundredth. */
export const stepped = (pxPerMm: number, up: boolean): number =>
  Math.min(most, Math.max(least, up ? pxPerMm * 1.01 : pxPerMm / 1.01));

export interface Tick {
  at: number;
  long: boolean;
  label: string | null;
}

/** Marks of a ruler, one a millimetre; every fifth is longer, every tenth has its number. */
export const ticksOf = (millimetres: number): Tick[] =>
  Array.from({ length: Math.floor(millimetres) + 1 }, (_, at) => ({
    at,
    long: at % 5 === 0,
    label: at % 10 === 0 ? String(at) : null,
  }));

/** Where so many things stand along a ruler: in the middle of equal parts. */
export const placesAlong = (millimetres: number, count: number): number[] =>
  Array.from({ length: count }, (_, index) => ((index + 0.5) * millimetres) / count);
