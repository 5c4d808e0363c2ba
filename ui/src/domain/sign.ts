// What stands beside the sign of an enclosure.
import type { Answers, Danger } from '../contract/answers';
import { words } from '../words/en';

type Clear = Answers['situation']['rooms'][number]['enclosures'][number]['clear'];

const nearlySure = 0.95;

/** The word beside a sign: where mites may well be left, that none was seen promises nothing. */
export function signWord(danger: Danger, clear: Clear): string {
  const mean = clear?.mean ?? null;
  const isUnsure = danger === 'healthy' && mean !== null && mean < nearlySure;
  return isUnsure ? words.situation.noneSeen : words.danger[danger];
}
