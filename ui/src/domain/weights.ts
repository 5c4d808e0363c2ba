// A new weight beside the last one.
import { showLongDay, showMass, type Units } from '../format';
import { words } from '../words/en';
import type { Animal } from '../contract/answers';

/** More than half away from the last: a slip of the finger, or an animal in trouble. */
export const isOdd = (now: number, last: number): boolean => Math.abs(now - last) > last / 2;

const t = words.animals;
const told = 3;

export interface Weighing {
  of: Animal;
  /** Grams; null: not weighed. */
  now: number | null;
}

/** What to ask before weights are put on record, each of its own animal; null when all are likely. */
export function askWeights(weighings: readonly Weighing[], units: Units): string | null {
  const questions = weighings.flatMap(({ of: { animal, name, weight }, now }) =>
    now !== null && weight && isOdd(now, weight.mass_g)
      ? [
          t.oddWeight(
            name || animal,
            showMass(weight.mass_g, units),
            showLongDay(weight.day),
            showMass(now, units),
          ),
        ]
      : [],
  );
  if (questions.length === 0) return null;
  return t.oddWeights(questions.slice(0, told).join(' '), Math.max(0, questions.length - told));
}
