// What is asked before a check goes on record, and before a quarantine ends.
import type { CheckMethod, Enclosure, JobResults, Seen, SeenWhere } from '../../contract/answers';

export type Lacking = 'method' | 'count' | 'where' | 'enclosures' | null;

/** What a check still lacks; nothing about it is taken for granted. */
export function lackingOf(
  method: CheckMethod | null,
  count: Seen | null,
  where: SeenWhere | null,
  picked: readonly string[],
): Lacking {
  if (!method) return 'method';
  if (!count) return 'count';
  if (count !== 'none' && !where) return 'where';
  return picked.length === 0 ? 'enclosures' : null;
}

/** Several clean checks at one tap are asked about once more: they end treatments. */
export const isManyClean = (count: Seen | null, picked: readonly string[]): boolean =>
  count === 'none' && picked.length > 1;

/** How many of the chosen stand in each room, in the order of the rooms. */
export function countByRoom(
  picked: readonly string[],
  enclosures: readonly Pick<Enclosure, 'enclosure' | 'room'>[],
): { room: string; count: number }[] {
  const chosen = new Set(picked);
  const counts = new Map<string, number>();
  for (const { enclosure, room } of enclosures)
    if (chosen.has(enclosure)) counts.set(room, (counts.get(room) ?? 0) + 1);
  return [...counts].map(([room, count]) => ({ room, count }));
}

/** The chance that is usually wanted before a quarantine ends. */
export const wantedLevel = 0.95;

/** Why it is too early to end a quarantine; empty: nothing speaks against it. */
export function tooEarly(
  result: Pick<JobResults['release'], 'today' | 'usual_from' | 'outlook'>,
): ('time' | 'chance')[] {
  const chance = result.outlook.points[0]?.none.clear.mean ?? 0;
  return [
    ...(result.today < result.usual_from ? (['time'] as const) : []),
    ...(chance < wantedLevel ? (['chance'] as const) : []),
  ];
}
