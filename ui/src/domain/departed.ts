// An animal that has left is no longer in the collection; its history still tells who it was.
import type { Entry } from '../contract/answers';
import { words } from '../words/en';
import { inForce } from './force';

export interface Departed {
  name: string;
  kind: string | null;
  day: string;
  reason: string;
}

type Left = Extract<Entry, { kind: 'animal-left' }>['fact'];

/** How it left and why; files from before it was asked how hold the reason alone. */
const reasonOf = ({ how, reason }: Left): string =>
  [how && words.leftHow[how].toLowerCase(), reason].filter(Boolean).join(', ');

export function departedBy(history: readonly Entry[], animal: string): Departed | null {
  let departed: Departed | null = null;
  let name = animal;
  let kind: string | null = null;
  for (const entry of inForce(history)) {
    if (entry.kind === 'animal-arrived' && entry.fact.animal === animal) {
      departed = null;
      name = entry.fact.name || animal;
      kind = entry.fact.taxon;
    }
    if (entry.kind === 'animal-left' && entry.fact.animal === animal)
      departed = { name, kind, day: entry.day, reason: reasonOf(entry.fact) };
  }
  return departed;
}

/** What animals are called that came into the collection, by their id. */
export function namesOf(entries: readonly Entry[]): Map<string, string> {
  const names = new Map<string, string>();
  for (const entry of entries)
    if (entry.kind === 'animal-arrived' && entry.fact.name) names.set(entry.fact.animal, entry.fact.name);
  return names;
}
