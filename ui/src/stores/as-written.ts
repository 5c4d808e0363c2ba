// Names of several kinds of which the keeper does not know which: they go on record as they are written, and are
// read there as the strictest kind or as not known.
import { SvelteSet } from 'svelte/reactivity';
import { keyOf } from '../domain/kinds';

const left = new SvelteSet<string>();

export const asWritten = {
  has: (kind: string): boolean => left.has(keyOf(kind)),
  leave: (kind: string): void => void left.add(keyOf(kind)),
};
