// How the name of a kind of animal is understood, and what else may have been meant.
import type { Answers } from '../contract/answers';

export type Meaning = Answers['taxa']['meaning'];
export type Kind = Meaning['kinds'][number];

/** Two ways to write one name: case, spaces, hyphens and points do not matter. */
export const keyOf = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
const wordsOf = (text: string): string[] => text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];

/** The last word of a name, which is most often that of the kind. */
export const lastWord = (text: string): string => text.split(/\s+/).at(-1) ?? text;

/** What goes on record for a kind as it is written: the full name where a short or trade name is plain. */
export function fullName(written: string, meaning: Meaning | undefined): string {
  const [kind] = meaning?.kinds ?? [];
  return meaning?.how === 'trade-name' && kind ? kind.name : written;
}

/** Letters to insert, drop or replace (Levenshtein 1966). */
export function edits(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (const [i, letter] of [...a].entries()) {
    const next = [i + 1];
    for (let j = 0; j < b.length; j += 1) {
      const replaced = (row[j] ?? 0) + (letter === b[j] ? 0 : 1);
      next.push(Math.min((row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1, replaced));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}

/** How far each word of `asked` is from the nearest word of `name`, and how much longer the name is. */
function distance(asked: string, name: string): number {
  const those = wordsOf(name);
  const missed = wordsOf(asked).map((word) => Math.min(...those.map((other) => edits(word, other))));
  const words = missed.reduce((sum, one) => sum + one, 0);
  return Math.min(edits(keyOf(asked), keyOf(name)), words + those.length / 10);
}

/** The names likest to what was asked, best first. */
export function nearNames(asked: string, names: readonly string[], most = 4): string[] {
  return [...new Set(names)]
    .map((name) => ({ name, far: distance(asked, name) }))
    .filter((one) => one.far <= Math.max(2, keyOf(asked).length / 2))
    .sort((a, b) => a.far - b.far || a.name.localeCompare(b.name))
    .slice(0, most)
    .map((one) => one.name);
}
