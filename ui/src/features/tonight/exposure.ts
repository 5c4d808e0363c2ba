import type { Answers } from '../../contract/answers';
import { showChance } from '../../format';

export type Exposed = Answers['exposure']['exposed'][number];

/** Enclosures told in one line: one reached by a contact of its own, or several reached alike on foot. */
export interface Reached {
  chance: number;
  enclosures: string[];
  example: Exposed;
  /** The room they are in, when mites only walked. */
  room: string | null;
}

const last = (row: Exposed) => row.path[row.path.length - 1];

const walkedTo = (row: Exposed): string | null => {
  const step = last(row);
  return step && (step.kind === 'same-room' || step.kind === 'adjoining-room') ? step.to_room : null;
};

const alike = (group: Reached, row: Exposed): boolean =>
  group.room !== null &&
  group.room === walkedTo(row) &&
  last(group.example)?.from === last(row)?.from &&
  showChance(group.chance) === showChance(row.chance);

/** The exposed rows in their order, with neighbours that differ in nothing but their name taken together. */
export function groupReached(rows: readonly Exposed[]): Reached[] {
  const groups: Reached[] = [];
  for (const row of rows) {
    const before = groups[groups.length - 1];
    if (before && alike(before, row)) before.enclosures.push(row.enclosure);
    else groups.push({ chance: row.chance, enclosures: [row.enclosure], example: row, room: walkedTo(row) });
  }
  return groups;
}

/** The path without the sighting it begins with; what came in from outside is told. */
export function pathText(row: Exposed): string {
  const steps = row.path.filter((step) => step.kind !== 'sighted').map((step) => step.text);
  return row.sighted || steps.length === 0 ? row.text : steps.join('; then ');
}
