// Names of several kinds of which the keeper does not know which: they go on record as they are written, and are
// read there as the strictest kind or as not known.
import { SvelteSet } from 'svelte/reactivity';
import { meaningOf } from '../api/meaning';
import { fullName, keyOf } from '../domain/kinds';

const left = new SvelteSet<string>();

export const asWritten = {
  has: (kind: string): boolean => left.has(keyOf(kind)),
  leave: (kind: string): void => void left.add(keyOf(kind)),
};

/** The full name of every kind, by how it is written; those that may be several kinds, of which one is to be said. */
export async function nameKinds(
  kinds: readonly string[],
): Promise<{ named: ReadonlyMap<string, string>; several: string[] }> {
  const written = [...new Set(kinds.filter(Boolean))];
  const all = await Promise.all(written.map(async (kind) => [kind, await meaningOf(kind)] as const));
  const several = all
    .filter(([kind, meaning]) => meaning.how === 'several' && !asWritten.has(kind))
    .map(([kind]) => kind);
  return { named: new Map(all.map(([kind, meaning]) => [kind, fullName(kind, meaning)])), several };
}
