// What is put right about an animal: the entry it came with, corrected.
import type { Entry } from '../contract/answers';
import { fact, type Body } from './facts';
import { inForce, ofKind, type EntryOf } from './force';

type Arrived = EntryOf<'animal-arrived'>;

/** The entry an animal came with, as it stands. */
export const arrivalOf = (entries: readonly Entry[], animal: string): Arrived | undefined =>
  ofKind(inForce(entries), 'animal-arrived').find((one) => one.fact.animal === animal);

/** The same arrival with another name or kind; what is left empty stays as it is. */
export function putRight(arrived: Arrived, name: string, taxon: string) {
  const { fact: was } = arrived;
  const body: Body<'animal-arrived'> = {
    ...was,
    name: name.trim() || was.name,
    taxon: taxon.trim() || (was.taxon ?? ''),
    origin: was.origin ?? '',
  };
  return { entry: arrived.id, ...fact('animal-arrived', body, arrived.day) };
}
