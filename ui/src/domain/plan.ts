import type { AdoptedAnswer, Method, PlanAnswer, Ruling, ScoredPlan } from '../contract/answers';
import { once } from './once';
import { groupBy } from './tables';

export type Round = ScoredPlan['rounds'][number];

/** A row of the timeline: one enclosure, or a room, and what is done to it in each round. */
export interface TimelineRow {
  key: string;
  room: string | null;
  enclosure: string | null;
  methods: Method[][];
  /** Who is sprayed, soaked or wiped in each round. */
  onAnimals: { method: Method; animal: string }[][];
}

const onAnimal: readonly Method[] = ['spray-animal', 'soak', 'wipe'];

/** The rounds turned about: a row for every enclosure and room that is treated, in working order. */
export const timelineOf = once((rounds: readonly Round[]): TimelineRow[] => {
  const rows = new Map<string, TimelineRow>();
  const blank = <T>(): T[][] => rounds.map(() => []);
  rounds.forEach((round, index) => {
    for (const { room, enclosure, method, animals } of round.treatments) {
      const key = enclosure ?? `room ${room}`;
      const row = rows.get(key) ?? { key, room, enclosure, methods: blank(), onAnimals: blank() };
      rows.set(key, row);
      const cell = row.methods[index];
      if (cell && !cell.includes(method)) cell.push(method);
      if (onAnimal.includes(method))
        row.onAnimals[index]?.push(...animals.map((animal) => ({ method, animal })));
    }
  });
  return [...rows.values()];
});

/** Whether a task is of the round of that day: its key begins with it, "2026-11-25/animal/juno". */
export const isOfRound = (task: string, day: string): boolean => task.startsWith(day);

/** Days of the rounds that are for all, not only for animals that had to wait. */
export const daysOf = (rounds: readonly Round[]): string[] =>
  rounds.filter((round) => !round.own_date).map((round) => round.day);

/** All treatments of a plan with their cautions in full. */
export const treatmentsOf = (plan: Pick<ScoredPlan, 'rounds' | 'cautions'>) =>
  plan.rounds
    .flatMap((round) => round.treatments)
    .map((one) => ({ ...one, cautions: one.cautions.flatMap((index) => plan.cautions[index] ?? []) }));

/** How many animals are sprayed at all. */
export function sprayedAnimals(rounds: readonly Round[]): number {
  const sprays = rounds
    .flatMap((round) => round.treatments)
    .filter(({ method }) => method === 'spray-animal');
  return new Set(sprays.flatMap(({ animals }) => animals)).size;
}

/** Who of an enclosure is not treated although another one in it is. */
export function apartFrom(row: TimelineRow, index: number, inside: readonly string[]): string[] {
  const treated = (row.onAnimals[index] ?? []).map(({ animal }) => animal);
  return treated.length === 0 ? [] : inside.filter((animal) => !treated.includes(animal));
}

/** What is done in one round of a row; with whom, where it is not done with all who live there. */
export function cellOf(
  row: TimelineRow,
  index: number,
  inside: readonly string[],
): { method: Method; animals: string[] }[] {
  return (row.methods[index] ?? []).map((method) => {
    const on = (row.onAnimals[index] ?? [])
      .filter((one) => one.method === method)
      .map(({ animal }) => animal);
    return { method, animals: onAnimal.includes(method) && on.length < inside.length ? on : [] };
  });
}

/** An enclosure that never gets any spray: only paper, or soaks and wipes as well. Null: it is sprayed. */
export function withoutSpray(row: TimelineRow): 'paperOnly' | 'noSpray' | null {
  const all = row.methods.flat();
  const sprays: readonly Method[] = ['spray-animal', 'spray-bedding'];
  if (row.enclosure === null || all.some((method) => sprays.includes(method))) return null;
  return all.every((method) => method === 'change-substrate') ? 'paperOnly' : 'noSpray';
}

const noSpray: Record<'spray-animal' | 'spray-bedding', readonly (Ruling | undefined)[]> = {
  'spray-animal': ['never', 'ask-vet', 'bedding-only'],
  'spray-bedding': ['never', 'ask-vet'],
};

/** What was to be sprayed in a round still to come, but may not be any more: an animal, or where it lives. */
export function nowForbidden(
  row: TimelineRow,
  rounds: readonly Round[],
  { today, inside }: { today: string; inside: readonly string[] },
  rulingOf: (animal: string, method: Method) => Ruling | undefined,
): { animal: string; method: 'spray-animal' | 'spray-bedding' }[] {
  const isAhead = (index: number): boolean => (rounds[index]?.day ?? '') >= today;
  const ahead = row.onAnimals.filter((_, index) => isAhead(index)).flat();
  const sprayed = new Set(ahead.filter(({ method }) => method === 'spray-animal').map((one) => one.animal));
  const bedding = row.methods.some((methods, index) => isAhead(index) && methods.includes('spray-bedding'));
  const forbid = (animals: Iterable<string>, method: keyof typeof noSpray) =>
    [...animals]
      .filter((animal) => noSpray[method].includes(rulingOf(animal, method)))
      .map((animal) => ({ animal, method }));
  return [...forbid(sprayed, 'spray-animal'), ...(bedding ? forbid(inside, 'spray-bedding') : [])];
}

/** Whether the adopted course holds a treatment of this kind, in a room if one is named; what was asked where its
    treatments are not on record. */
export const holds = (
  course: Pick<AdoptedAnswer, 'rounds'> | null,
  asked: boolean,
  method: Method,
  room?: string,
): boolean =>
  course?.rounds
    ? course.rounds.some(({ treatments }) =>
        treatments.some((one) => one.method === method && (!room || one.room === room)),
      )
    : asked;

/** Exceptions a course makes, each treatment and its reason once, with all the animals it is of. */
export function exceptionsAlike(
  exceptions: NonNullable<AdoptedAnswer['exceptions']>,
): { text: string; reason: string; animals: string[] }[] {
  const groups = groupBy(exceptions, ({ text, reason }) => `${text}\n${reason}`);
  return [...groups.values()].map((alike) => ({
    text: alike[0].text,
    reason: alike[0].reason,
    animals: alike.map(({ animal }) => animal),
  }));
}

/** The plans of an answer with the name under which each can be adopted. */
export function plansOf(answer: PlanAnswer): { name: 'recommended' | number; plan: ScoredPlan }[] {
  return [
    { name: 'recommended', plan: answer.recommended },
    ...answer.alternatives.map((plan, index) => ({ name: index, plan })),
  ];
}
