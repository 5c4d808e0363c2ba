// What is drawn of a mite or a tick: the legs of one side, the other side is their mirror. A body is 100 long, its head up.
export const creatures = [
  'mite-hungry',
  'mite-fed',
  'mite-larva',
  'mite-egg',
  'springtail',
  'mould-mite',
  'predatory-mite',
  'tick',
  'dust',
  'crumb',
  'flake',
] as const;
export type CreatureKind = (typeof creatures)[number];

/** x, y, x, y ... from the body outwards. */
type Leg = readonly number[];

const mapped = (leg: Leg, change: (x: number, y: number) => [number, number]): Leg =>
  leg.flatMap((x, at) => (at % 2 === 0 ? change(x, leg[at + 1] ?? 0) : []));
const pathOf = (leg: Leg): string => `M${leg.join(' ')}`;

/** Both sides of legs that are given for the right one. */
export const bothSides = (legs: readonly Leg[]): string =>
  legs.map((leg) => pathOf(leg) + pathOf(mapped(leg, (x, y) => [-x, y]))).join('');

const long: Leg[] = [
  [13, -36, 24, -60, 23, -82, 30, -99],
  [20, -28, 44, -46, 60, -62, 72, -82],
  [22, -12, 50, 0, 68, 20, 84, 34],
  [19, 4, 42, 34, 52, 62, 66, 84],
];
const short: Leg[] = [
  [10, -40, 17, -54, 18, -66, 23, -74],
  [18, -36, 31, -50, 40, -60, 47, -70],
  [24, -28, 40, -28, 54, -20, 63, -10],
  [26, -18, 42, -10, 54, 6, 60, 20],
];
const forward: Leg[] = [
  [9, -40, 16, -66, 12, -92, 16, -112],
  [17, -30, 38, -48, 54, -58, 66, -74],
  [19, -12, 44, -2, 60, 18, 74, 32],
  [16, 4, 36, 32, 46, 60, 60, 82],
];
const sturdy: Leg[] = [
  [14, -38, 40, -58, 52, -72, 58, -86],
  [24, -32, 54, -40, 70, -48, 80, -60],
  [28, -22, 58, -16, 76, -6, 86, 6],
  [28, -10, 56, 8, 70, 26, 78, 42],
];
/** Beside a body full of blood the same legs are short. */
const besideBlood = long.map((leg) => mapped(leg, (x, y) => [x * 0.66 + 8, (y + 14) * 0.62 - 24]));

export interface Acarine {
  body: string;
  legs: string;
  /** How thick a leg is. */
  leg: number;
  fill: 'dark' | 'pale' | 'clear' | 'brown';
  mouth: string;
  inside: string;
  hairs?: string;
}

const palps = 'M-4 -48L-8 -62M4 -48L8 -62';

export const acarines: Partial<Record<CreatureKind, Acarine>> = {
  'mite-hungry': {
    body: 'M0 -52C15 -50 30 -34 32 -8C34 24 20 50 0 50C-20 50 -34 24 -32 -8C-30 -34 -15 -50 0 -52Z',
    legs: bothSides(long),
    leg: 5,
    fill: 'pale',
    mouth: palps,
    inside: 'M0 -38C13 -36 17 -18 15 4C13 14 -13 14 -15 4C-17 -18 -13 -36 0 -38ZM-9 28C-4 32 4 32 9 28',
    hairs: 'M20 40L25 48M-20 40L-25 48M10 48L12 57M-10 48L-12 57',
  },
  'mite-fed': {
    body: 'M0 -54C13 -53 22 -46 29 -36C44 -24 52 0 49 20C45 42 24 52 0 52C-24 52 -45 42 -49 20C-52 0 -44 -24 -29 -36C-22 -46 -13 -53 0 -54Z',
    legs: bothSides(besideBlood),
    leg: 4,
    fill: 'dark',
    mouth: 'M-3 -52L-6 -62M3 -52L6 -62',
    inside: 'M-30 -6C-34 12 -28 28 -16 36M-18 -22C-22 -16 -26 -12 -28 -6',
  },
  'mite-larva': {
    body: 'M0 -50C20 -48 34 -28 34 0C34 28 20 50 0 50C-20 50 -34 28 -34 0C-34 -28 -20 -48 0 -50Z',
    legs: bothSides(long.slice(0, 3)),
    leg: 6,
    fill: 'clear',
    mouth: palps,
    inside: '',
    hairs: 'M12 46L18 62M-12 46L-18 62',
  },
  'mould-mite': {
    body: 'M0 -52C14 -46 22 -32 28 -12C40 14 34 44 0 50C-34 44 -40 14 -28 -12C-22 -32 -14 -46 0 -52Z',
    legs: bothSides(short),
    leg: 6,
    fill: 'clear',
    mouth: 'M-4 -48L-5 -58M4 -48L5 -58',
    inside: 'M-22 -18C-10 -13 10 -13 22 -18M-14 24a6 6 0 1 0 1 0M14 24a6 6 0 1 0 1 0',
    hairs:
      'M24 34C34 50 38 66 36 84M-24 34C-34 50 -38 66 -36 84M10 47C14 64 14 80 10 96M-10 47C-14 64 -14 80 -10 96M32 12C44 20 52 32 56 46M-32 12C-44 20 -52 32 -56 46',
  },
  'predatory-mite': {
    body: 'M0 -52C14 -50 26 -34 28 -12C30 14 16 42 0 52C-16 42 -30 14 -28 -12C-26 -34 -14 -50 0 -52Z',
    legs: bothSides(forward),
    leg: 5,
    fill: 'brown',
    mouth: palps,
    inside: 'M0 -42C12 -40 20 -28 21 -10C22 10 12 32 0 42C-12 32 -22 10 -21 -10C-20 -28 -12 -40 0 -42Z',
  },
  tick: {
    body: 'M0 -40C22 -40 36 -26 40 0C44 32 26 50 0 50C-26 50 -44 32 -40 0C-36 -26 -22 -40 0 -40Z',
    legs: bothSides(sturdy),
    leg: 6,
    fill: 'brown',
    mouth: 'M-8 -40L-10 -58M8 -40L10 -58M0 -40L0 -64',
    inside:
      'M0 -36C18 -36 26 -24 24 -8C20 8 8 14 0 14C-8 14 -20 8 -24 -8C-26 -24 -18 -36 0 -36ZM-26 38L-22 28M26 38L22 28M-10 47L-8 36M10 47L8 36M-36 22L-28 18M36 22L28 18',
  },
};
