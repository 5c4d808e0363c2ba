/** Marks that lie on the stretch that is drawn; the others would stand beside it. */
export const marksWithin = (marks: readonly number[], x: readonly number[]): number[] =>
  marks.filter((mark) => mark >= Math.min(...x) && mark <= Math.max(...x));
