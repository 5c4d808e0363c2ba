/** The list with the thing at `at` and the one after it in each other's place. */
export function swapped<T>(list: readonly T[], at: number): T[] {
  const [one, other] = list.slice(at, at + 2);
  if (at < 0 || one === undefined || other === undefined) return [...list];
  return [...list.slice(0, at), other, one, ...list.slice(at + 2)];
}
