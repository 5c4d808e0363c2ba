// Amounts of spray in squirts of the bottle at hand, once its keeper has counted how many fill an amount.
import { readNumber } from '../format';
import type { Bench } from './bench';

/** What one squirt of a hand sprayer may be, mL: beyond that it was counted or typed wrongly (assumption). */
export const leastSquirt = 0.05;
export const mostSquirt = 10;

/** mL of one squirt; null: not counted, or not possible. */
export function mlPerSquirt({ squirts, squirtsMl }: Pick<Bench, 'squirts' | 'squirtsMl'>): number | null {
  const [number, ml] = [readNumber(squirts), readNumber(squirtsMl)];
  if (number === null || ml === null || number < 1) return null;
  const one = ml / number;
  return one >= leastSquirt && one <= mostSquirt ? one : null;
}

/** As many whole squirts as are in an amount, mL, and what they come to. Rounded down: never more than the amount.
 * Null: not counted. None of them: the amount is less than one. */
export function squirtsOf(ml: number, bench: Bench): { number: number; ml: number } | null {
  const one = mlPerSquirt(bench);
  if (one === null) return null;
  // A hair is forgiven, so that 3 squirts of 0.1 mL are in 0.3 mL.
  const number = Math.floor(ml / one + 1e-9);
  return { number, ml: number * one };
}
