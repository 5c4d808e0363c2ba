/** Marks that lie on the stretch that is drawn; the others would stand beside it. */
export const marksWithin = (marks: readonly number[], x: readonly number[]): number[] =>
  marks.filter((mark) => mark >= Math.min(...x) && mark <= Math.max(...x));

/** A range a little wider than what is drawn in it, so that no marker at an end is cut off. */
export function beyond(low: number, high: number): [number, number] {
  const more = (high - low || 1) * 0.03;
  return [low - more, high + more];
}

const seconds = 86_400;

/** The whole multiples of a step between two values, from low to high. */
function multiples(low: number, high: number, step: number): number[] {
  const first = Math.ceil(low / step - 1e-9);
  const count = Math.floor(high / step + 1e-9) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}

/** At most so many round values between two: steps of 1, 2 or 5 times a power of ten. */
export function ticksWithin(low: number, high: number, most: number): number[] {
  const least = (high - low) / most;
  const power = 10 ** Math.floor(Math.log10(least));
  const step = [1, 2, 5, 10].map((times) => times * power).find((one) => one >= least * (1 - 1e-9));
  return multiples(low, high, step ?? 10 * power);
}

/** The same of days, given as seconds: each, every second or third, or so many weeks apart. */
export function ticksOfDays(low: number, high: number, most: number): number[] {
  const least = (high - low) / seconds / most;
  const days = [1, 2, 3, 7, 14, 28, 56, 91, 182].find((one) => one >= least) ?? 364 * Math.ceil(least / 364);
  const first = Math.ceil(low / seconds);
  return multiples(0, high / seconds - first, days).map((day) => (first + day) * seconds);
}

/** Where a value is drawn; null: there is none. */
export type Point = [number, number] | null;

/** A line through what is there, broken where nothing is. */
export const lineOf = (points: readonly Point[]): string =>
  points.map((point, i) => (point ? `${points[i - 1] ? 'L' : 'M'}${point.join(' ')}` : '')).join('');

/** The areas between two edges, one for each stretch on which both are there. */
export function bandOf(low: readonly Point[], high: readonly Point[]): string {
  let path = '';
  let back: string[] = [];
  const close = (): void => {
    path += back.length > 0 ? `${back.toReversed().join('')}Z` : '';
    back = [];
  };
  high.forEach((upper, i) => {
    const lower = low[i];
    if (!upper || !lower) return close();
    path += `${back.length > 0 ? 'L' : 'M'}${upper.join(' ')}`;
    back.push(`L${lower.join(' ')}`);
  });
  close();
  return path;
}

/** The place in the list of what is nearest; null of an empty list. */
export const nearest = (places: readonly number[], to: number): number | null =>
  places.reduce<number | null>(
    (best, place, i) =>
      best === null || Math.abs(place - to) < Math.abs((places[best] ?? 0) - to) ? i : best,
    null,
  );
