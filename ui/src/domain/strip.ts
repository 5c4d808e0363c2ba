import type { JobResults } from '../contract/answers';
import { addDays, daysBetween } from '../format';

export type Strip = JobResults['why-days'];
export type StripEnclosure = Strip['enclosures'][number];
type Gate = StripEnclosure['rounds'][number];
type Shares = Gate['before'];
export type LifeStage = StripEnclosure['stages'][number]['stage'];

const lives = (shares: Shares) => [shares.egg, shares.later, shares.laid_since];
const sum = (numbers: number[]): number => numbers.reduce((all, one) => all + one, 0);

/** Eggs, of 100 alive on day 0. */
export const eggsIn = (shares: Shares): number => 100 * sum(lives(shares).map((one) => one.egg));
/** Everything past the egg, of 100 alive on day 0. */
export const othersIn = (shares: Shares): number =>
  100 * sum(lives(shares).map((one) => one.larva + one.protonymph + one.deutonymph + one.adult));

/** A day of the course as one enclosure meets it, in mites of 100 alive on day 0. */
export interface Passing {
  day: string;
  /** Days from day 0. */
  at: number;
  methods: Gate['methods'];
  ownDate: boolean;
  eggsBefore: number;
  othersBefore: number;
  caught: number;
  eggsAfter: number;
  othersAfter: number;
}

export const passingsOf = (told: StripEnclosure, dayZero: string): Passing[] =>
  told.rounds.map((gate) => ({
    day: gate.day,
    at: daysBetween(dayZero, gate.day),
    methods: gate.methods,
    ownDate: gate.own_date,
    eggsBefore: eggsIn(gate.before),
    othersBefore: othersIn(gate.before),
    caught: 100 * (gate.caught.mean ?? 0),
    eggsAfter: eggsIn(gate.after),
    othersAfter: othersIn(gate.after),
  }));

/** One part of a life that begins as an egg laid on day 0, in days from then; until none is told. */
export function lifeOf(told: StripEnclosure): { stage: LifeStage; from: number; to: number }[] {
  const parts: { stage: LifeStage; from: number; to: number }[] = [];
  let from = 0;
  for (const { stage, days } of told.stages) {
    if (!days) break;
    parts.push({ stage, from, to: from + days.mean });
    from += days.mean;
  }
  return parts;
}

/** Days from egg to egg; null where it is too cold for a whole life. */
export function daysToFirstEggs(told: StripEnclosure): number | null {
  const life = lifeOf(told);
  return life.length === told.stages.length ? (life.at(-1)?.to ?? null) : null;
}

/** Of the eggs of day 0, in 100 alive then: how many are eggs still when the second round begins. */
export const eggsStill = (told: StripEnclosure): number | null => {
  const second = told.rounds.filter((gate) => !gate.own_date)[1];
  return second ? 100 * second.before.egg.egg : null;
};

/** The number of the enclosure in which most is alive after the last round. */
export function hardest(all: readonly StripEnclosure[]): number {
  const left = all.map(({ rounds }) => {
    const last = rounds.at(-1)?.after;
    return last ? eggsIn(last) + othersIn(last) : 0;
  });
  return Math.max(0, left.indexOf(Math.max(...left)));
}

export const leastApart = 3;

/** The days with one round put a day off; null where it cannot go there. */
export function moved(days: readonly string[], index: number, by: 1 | -1, today: string): string[] | null {
  const day = days[index];
  if (!day) return null;
  const next = days.map((one, at) => (at === index ? addDays(one, by) : one));
  const isApart = next.every((one, at) => at === 0 || daysBetween(next[at - 1] ?? one, one) >= leastApart);
  return isApart && (next[0] ?? '') >= today ? next : null;
}
