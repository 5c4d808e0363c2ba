// A new weight beside the last one.
import { showLongDay, showMass, type Units } from '../format';
import { words } from '../words/en';
import type { Animal } from '../contract/answers';

/** More than half away from the last: a slip of the finger, or an animal in trouble. */
export const isOdd = (now: number, last: number): boolean => Math.abs(now - last) > last / 2;

const t = words.animals;
const told = 3;

/** What to ask before a weight is put on record for these animals; null when it is likely. */
export function askWeight(now: number | null, animals: readonly Animal[], units: Units): string | null {
  if (now === null) return null;
  const questions = animals.flatMap(({ animal, name, weight }) =>
    weight && isOdd(now, weight.mass_g)
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
