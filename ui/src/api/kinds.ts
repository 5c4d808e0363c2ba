// Whether a kind of animal is one Mitefall knows, and what else may have been meant.
import type { Answers } from './answers';

type Taxa = Answers['taxa']['taxa'];

const keyOf = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
const wordsOf = (text: string): string[] => text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];

/** Known by its name, or by its genus where the genus is known as a whole. */
export function isKnownKind(text: string, taxa: Taxa): boolean {
  const [genus = ''] = wordsOf(text);
  return taxa.some((taxon) => keyOf(taxon.name) === keyOf(text) || taxon.scientific.toLowerCase() === genus);
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
