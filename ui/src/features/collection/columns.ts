// Which column of a table means what.
import { words } from '../../words/en';

export const fields = Object.keys(words.importing.fields) as Field[];
export type Field = keyof typeof words.importing.fields;
/** Column of each field; a field without a column is not in the table. */
export type Matching = Partial<Record<Field, number>>;

const hints: Record<Field, RegExp> = {
  animal: /^(animal|name|snake|id)\b/,
  kind: /species|kind|taxon|type|morph/,
  enclosure: /enclosure|tub|cage|vivarium|tank|box|slot/,
  room: /room|location|rack/,
  weight: /weight|mass|\bgrams?\b|\bkg\b|\blbs?\b|\boz\b/,
  arrived: /arriv|acquired|since|bought|date/,
  origin: /origin|from|breeder|source/,
  quarantine: /quarantine/,
  material: /material/,
  substrate: /substrate|bedding/,
  day_c: /day.*(temp|c\b)|temp.*day|^temp/,
  night_c: /night/,
  humidity: /humid/,
  floor: /floor|area/,
};

/** The likely column of each field, by its heading; no column is taken twice. */
export function guessColumns(headings: readonly string[]): Matching {
  const matching: Matching = {};
  const taken = new Set<number>();
  for (const field of fields) {
    const index = headings.findIndex(
      (heading, at) =>
        !taken.has(at) && hints[field].test(heading.trim().toLowerCase().replace(/[_-]+/g, ' ')),
    );
    if (index < 0) continue;
    matching[field] = index;
    taken.add(index);
  }
  return matching;
}
