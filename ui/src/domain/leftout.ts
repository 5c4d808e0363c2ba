// Who is left out of a plan, gathered by the rule that stands against it.
import type { Method, Ruling, ScoredPlan } from '../contract/answers';
import { words } from '../words/en';

/** Why, by rule, and in two parts: what holds for all, and what is of this one alone. */
type Why = Pick<ScoredPlan['left_out'][number]['why'], 'common' | 'own' | 'remedy'> &
  Partial<Pick<ScoredPlan['left_out'][number]['why'], 'remedy_rule' | 'remedy_args'>> & {
    rule: string | null;
  };

/** The room is told of plans to choose from, and not of one on record. */
export type Row = Omit<ScoredPlan['left_out'][number], 'room' | 'why'> & { room?: string | null; why: Why };

export interface LeftOutGroup {
  why: Why;
  /** First round it is about, from 1. */
  from: number;
  rounds: number;
  methods: Method[];
  who: { animal: string | null; enclosure: string | null; room: string | null; own: string }[];
}

const t = words.plan.leftOutWords;

const add = <T>(list: T[], one: T): void => void (list.includes(one) || list.push(one));

interface Gathered extends LeftOutGroup {
  days: Set<string>;
  /** Who of `who` is in it already. */
  there: Set<string>;
}

function roundOf(day: string, rounds: readonly string[]): number {
  const index = rounds.findIndex((round) => day <= round);
  return index < 0 ? rounds.length : index + 1;
}

/** One group for every reason and the round it begins with; an enclosure is named only where its animals are not. */
export function groupLeftOut(rows: readonly Row[], rounds: readonly string[]): LeftOutGroup[] {
  const firstDay = new Map<string, string>();
  const reasonOf = ({ why }: Row): string => JSON.stringify([why.rule, why.common, why.remedy]);
  const keyOf = (row: Row): string => JSON.stringify([row.animal ?? row.enclosure, reasonOf(row)]);
  for (const row of rows) {
    const first = firstDay.get(keyOf(row));
    if (!first || row.day < first) firstDay.set(keyOf(row), row.day);
  }
  const groups = new Map<string, Gathered>();
  for (const row of rows) {
    const { why } = row;
    const from = roundOf(firstDay.get(keyOf(row)) ?? row.day, rounds);
    const key = `${from} ${reasonOf(row)}`;
    const group: Gathered = groups.get(key) ?? {
      ...{ why, from, rounds: 0, methods: [], who: [] },
      days: new Set(),
      there: new Set(),
    };
    groups.set(key, group);
    group.days.add(row.day);
    add(group.methods, row.method);
    const { animal, enclosure, room = null } = row;
    const one = JSON.stringify([animal, enclosure, room]);
    if (group.there.has(one)) continue;
    group.there.add(one);
    group.who.push({ animal, enclosure, room, own: why.own ?? '' });
  }
  return [...groups.values()].map(({ days, there: _, ...group }) => ({
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

/** Whom to move so that most of the animals concerned can be treated, where that is what keeps most of them from it. */
export function worthMoving(
  groups: readonly LeftOutGroup[],
  treated: number,
): { who: string[]; count: number } | null {
  const animals = (group: LeftOutGroup): number => group.who.filter((one) => one.animal).length;
  const movable = groups.filter((group) => group.why.remedy_rule === 'move_to_another_room');
  const most = movable.sort((a, b) => animals(b) - animals(a))[0];
  if (!most) return null;
  const count = animals(most);
  const who = (most.why.remedy_args?.['who'] ?? []) as { name: string | null }[];
  return count > 0 && count >= treated ? { who: who.map(({ name }) => name ?? ''), count } : null;
}
