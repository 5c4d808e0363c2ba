import type { Task } from '../contract/answers';
import { showStrength, showVolume, type Units } from '../format';
import { words } from '../words/en';
import type { Bench } from './bench';
import { once } from './once';
import { squirtsOf } from './squirts';
import { groupBy } from './tables';

/** Tasks that follow one another in the same enclosure, or in the same room outside any enclosure. */
export interface Stop {
  key: string;
  room: string | null;
  enclosure: string | null;
  tasks: Task[];
}

/** The worklist as stops on the way through the rooms; the working order stays as it is. */
export function stopsOf(tasks: readonly Task[]): Stop[] {
  const stops: Stop[] = [];
  for (const task of tasks) {
    const last = stops[stops.length - 1];
    if (last && last.room === task.room && last.enclosure === task.enclosure) last.tasks.push(task);
    else stops.push({ key: task.key, room: task.room, enclosure: task.enclosure, tasks: [task] });
  }
  return stops;
}

/** Ways in which tasks are done step by step, each once with a letter of its own, in the order of the first task. */
export function waysOf(
  tasks: readonly Pick<Task, 'steps' | 'state'>[],
): { letter: string; steps: string[] }[] {
  const ways: { letter: string; steps: string[] }[] = [];
  for (const { steps, state } of tasks) {
    if (state !== 'open' || steps.length === 0 || letterOf(steps, ways) !== '') continue;
    ways.push({ letter: String.fromCharCode('A'.charCodeAt(0) + ways.length), steps });
  }
  return ways;
}

/** The letter of these steps; empty: they are none of the ways. */
export const letterOf = (
  steps: readonly string[],
  ways: readonly { letter: string; steps: string[] }[],
): string => ways.find((way) => way.steps.join() === steps.join())?.letter ?? '';

/** Tasks that are ticked; words on hygiene are read, not ticked. */
export const tickable = (task: Task): boolean => task.kind !== 'hygiene';

/** A stop at which something is done, and the words on hygiene that come before it. */
export interface Visit extends Stop {
  before: Task[];
}

/** The way through the day, one place at a time. `after`: words on hygiene behind the last of them. */
export function visitsOf(tasks: readonly Task[]): { visits: Visit[]; after: Task[] } {
  const visits: Visit[] = [];
  let before: Task[] = [];
  for (const task of tasks) {
    const last = visits.at(-1);
    if (!tickable(task)) before.push(task);
    else if (last && before.length === 0 && last.room === task.room && last.enclosure === task.enclosure)
      last.tasks.push(task);
    else {
      visits.push({ key: task.key, room: task.room, enclosure: task.enclosure, tasks: [task], before });
      before = [];
    }
  }
  return { visits, after: before };
}

export function progressOf(
  tasks: readonly Task[],
  isTicked: (task: Task) => boolean,
): { done: number; all: number } {
  const wanted = tasks.filter(tickable);
  return {
    all: wanted.length,
    done: wanted.filter(isTicked).length,
  };
}

type Caution = Task['cautions'][number];

/** What a caution tells, whatever its words: the same for the same rule and arguments. */
export const sayingOf = once((caution: Caution): string => JSON.stringify([caution.rule, caution.args]));

/** What cautions stand on: a task, or a treatment of a plan. */
export type Bearer = Pick<Task, 'method' | 'cautions' | 'room' | 'enclosure'> & { kind?: Task['kind'] };

const groupOf = (task: Bearer): string => task.method ?? task.kind ?? '';

/** Cautions that stand on every task of a group, in several places, and name no animal: they are said once, at the
 * head of the day. All others stay at their task. */
export const headCautions = once((tasks: readonly Bearer[]): Caution[] => {
  const head = new Map<string, Caution>();
  for (const group of groupBy(tasks, groupOf).values()) {
    if (new Set(group.map((one) => `${one.room}/${one.enclosure}`)).size < 2) continue;
    const has = group.map((task) => new Set(task.cautions.map(sayingOf)));
    for (const caution of group[0].cautions)
      if (has.every((told) => told.has(sayingOf(caution))) && caution.animals.length === 0)
        head.set(sayingOf(caution), caution);
  }
  return [...head.values()];
});

/** The first few that are read at one glance: at most three, and of no more letters than fit on a telephone; always one. */
export function readAtOnce(cautions: readonly Caution[], mostLetters = 420): Caution[] {
  let left = mostLetters;
  const over = cautions.findIndex(({ text }, index) => {
    left -= text.length;
    return index === 3 || (index > 0 && left < 0);
  });
  return over < 0 ? [...cautions] : cautions.slice(0, over);
}

/** Cautions of a task that do not already stand at the head of the day. */
export function ownCautions(task: Bearer, head: readonly Caution[]): Caution[] {
  const known = new Set(head.map(sayingOf));
  return task.cautions.filter((caution) => !known.has(sayingOf(caution)));
}

/** Cautions that are not at the head, each once with the places they belong to. */
export function cautionsByPlace(
  tasks: readonly Bearer[],
  head: readonly Caution[],
  placeOf: (task: Bearer) => string,
): { text: string; places: string[] }[] {
  const found = new Map<string, Set<string>>();
  for (const task of tasks)
    for (const { text } of ownCautions(task, head))
      found.set(text, (found.get(text) ?? new Set()).add(placeOf(task)));
  return [...found].map(([text, places]) => ({ text, places: [...places].filter(Boolean) }));
}

/** What must be known at a place and is not said at the head of the day: each once. */
export function cautionsOf(tasks: readonly Task[], head: readonly Caution[]): Caution[] {
  const all = new Map(
    tasks.flatMap((task) => ownCautions(task, head)).map((caution) => [sayingOf(caution), caution]),
  );
  return [...all.values()];
}

/** "24 mL · ivermectin 10 mg/L", and in squirts of the keeper's bottle where one has been counted. */
export function amountOf(task: Task, units: Units, bench: Bench): string {
  const amount = task.amount_ml;
  const isSprayed = amount !== null && task.kind !== 'mix';
  const squirts = isSprayed ? squirtsOf(amount, bench) : null;
  return [
    amount === null ? '' : showVolume(amount, units),
    squirts && amount !== null ? words.squirts.tell(squirts.number, showVolume(squirts.ml, units)) : '',
    strengthOf(task),
  ]
    .filter(Boolean)
    .join(' · ');
}

/** "ivermectin 10 mg/L": a strength is never shown without what it is of. */
export function strengthOf(task: Task): string {
  if (task.strength_mg_per_l === null) return '';
  return [task.agent, showStrength(task.strength_mg_per_l)].filter(Boolean).join(' ');
}
