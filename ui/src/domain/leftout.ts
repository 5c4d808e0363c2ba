// Who is left out of a plan, gathered by reason.
import type { Method, Ruling, ScoredPlan } from '../contract/answers';
import { showLongDay } from '../format';
import { words } from '../words/en';

/** The room is told of plans to choose from, and not of one on record. */
export type Row = Omit<ScoredPlan['left_out'][number], 'room'> & { room?: string | null };

export interface LeftOutGroup {
  reason: string;
  remedy: string;
  /** First round it is about, from 1. */
  from: number;
  rounds: number;
  methods: Method[];
  who: { animal: string | null; enclosure: string | null; room: string | null; detail: string }[];
}

const t = words.plan.leftOutWords;

/** "it weighs 95 g; spray needs ..." -> what holds for all, and what is of this animal alone. */
export function splitReason(text: string): { reason: string; remedy: string; detail: string } {
  const [what = '', remedy = ''] = text.split(/\.? What to do: /);
  const weight = /^it weighs ([\d.]+ \S+); (.*)$/.exec(what);
  if (weight) return { reason: weight[2] ?? '', remedy, detail: weight[1] ?? '' };
  const limit = /^this would be application \d+ within (\d+) days; a course has at most (\d+)$/.exec(what);
  if (limit) return { reason: t.atMost(limit[2] ?? '', limit[1] ?? ''), remedy, detail: '' };
  const noted = /^(.*?)\s*\(noted (\d{4}-\d\d-\d\d)\)(.*)$/.exec(what);
  if (noted)
    return { reason: `${noted[1]}${noted[3]}`, remedy, detail: t.noted(showLongDay(noted[2] ?? '')) };
  return { reason: what, remedy, detail: '' };
}

const add = <T>(list: T[], one: T): void => void (list.includes(one) || list.push(one));

interface Gathered extends LeftOutGroup {
  days: Set<string>;
}

function roundOf(day: string, rounds: readonly string[]): number {
  const index = rounds.findIndex((round) => day <= round);
  return index < 0 ? rounds.length : index + 1;
}

/** One group for every reason and the round it begins with; an enclosure is named only where its animals are not. */
export function groupLeftOut(rows: readonly Row[], rounds: readonly string[]): LeftOutGroup[] {
  const firstDay = new Map<string, string>();
  const keyOf = (row: Row): string => `${row.animal ?? row.enclosure}\n${row.reason}`;
  for (const row of rows) {
    const first = firstDay.get(keyOf(row));
    if (!first || row.day < first) firstDay.set(keyOf(row), row.day);
  }
  const groups = new Map<string, Gathered>();
  for (const row of rows) {
    const { reason, remedy, detail } = splitReason(row.reason);
    const from = roundOf(firstDay.get(keyOf(row)) ?? row.day, rounds);
    const key = `${from}\n${reason}\n${remedy}`;
    const group: Gathered = groups.get(key) ?? {
      ...{ reason, remedy, from, rounds: 0, methods: [], who: [] },
      days: new Set(),
    };
    groups.set(key, group);
    group.days.add(row.day);
    add(group.methods, row.method);
    const { animal, enclosure, room = null } = row;
    const isThere = group.who.some(
      (one) => one.animal === animal && one.enclosure === enclosure && one.room === room,
    );
    if (!isThere) group.who.push({ animal, enclosure, room, detail });
  }
  return [...groups.values()].map(({ days, ...group }) => ({
    ...group,
    rounds: days.size,
    who: withoutTheirTubs(group.who),
  }));
}

function withoutTheirTubs(who: LeftOutGroup['who']): LeftOutGroup['who'] {
  const tubs = new Set(who.filter((one) => one.animal).map((one) => one.enclosure));
  return who.filter((one) => one.animal || !tubs.has(one.enclosure));
}

/** What those of a group are, in one word. */
export function kindOf(who: LeftOutGroup['who']): 'animal' | 'enclosure' | 'room' | 'place' {
  if (who.every((one) => one.animal)) return 'animal';
  if (who.every((one) => !one.animal && one.enclosure)) return 'enclosure';
  return who.every((one) => !one.animal && !one.enclosure) ? 'room' : 'place';
}

const severity: readonly Ruling[] = ['never', 'ask-vet', 'wait-until', 'bedding-only', 'allowed'];

/** The gravest first, by what the verdicts of its animals say; groups without a verdict keep their place behind. */
export function gravestFirst(
  groups: readonly LeftOutGroup[],
  rulingOf: (animal: string, method: Method) => Ruling | undefined,
): LeftOutGroup[] {
  const rank = (group: LeftOutGroup): number => {
    const ranks = group.who.flatMap(({ animal }) =>
      group.methods.map((method) => severity.indexOf((animal && rulingOf(animal, method)) || 'allowed')),
    );
    return Math.min(severity.length, ...ranks) + (group.from > 1 ? severity.length : 0);
  };
  return [...groups].sort((a, b) => rank(a) - rank(b));
}

/** When the group is left out, in words. */
export function whenOf(group: Pick<LeftOutGroup, 'from' | 'rounds'>, all: number): string {
  if (all === 1) return t.thisRound;
  if (group.from > 1 && group.from + group.rounds > all) return t.fromRound(group.from);
  return group.rounds >= all ? t.everyRound : t.someRounds(group.rounds, all);
}

/** One thing that can be changed and that keeps most of the animals concerned from being treated. */
export function worthMoving(
  groups: readonly LeftOutGroup[],
  treated: number,
): { remedy: string; count: number } | null {
  const animals = (group: LeftOutGroup): number => group.who.filter((one) => one.animal).length;
  const movable = groups.filter((group) => /^move /i.test(group.remedy));
  const most = movable.sort((a, b) => animals(b) - animals(a))[0];
  if (!most) return null;
  const count = animals(most);
  return count > 0 && count >= treated ? { remedy: most.remedy.replace(/ and record it$/, ''), count } : null;
}
