/** Marks that lie on the stretch that is drawn; the others would stand beside it. */
export const marksWithin = (marks: readonly number[], x: readonly number[]): number[] =>
  marks.filter((mark) => mark >= Math.min(...x) && mark <= Math.max(...x));

/** A range a little wider than what is drawn in it, so that no marker at an end is cut off. */
export function beyond(low: number, high: number): [number, number] {
  const more = (high - low || 1) * 0.03;
  return [low - more, high + more];
}
