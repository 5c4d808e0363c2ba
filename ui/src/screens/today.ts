import type { Answers, Entry, Task } from '../api/answers';

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

/** Tasks that are ticked; words on hygiene are read, not ticked. */
export const tickable = (task: Task): boolean => task.kind !== 'hygiene';

export function progressOf(
  tasks: readonly Task[],
  isWaiting: (key: string) => boolean,
): { done: number; all: number } {
  const wanted = tasks.filter(tickable);
  return {
    all: wanted.length,
    done: wanted.filter((task) => task.state !== 'open' || isWaiting(task.key)).length,
  };
}

/** Cautions of a task that do not already stand at the head of the day. */
export function ownCautions(task: Task, day: Answers['worklist']['cautions']): Task['cautions'] {
  const known = new Set(day.map((caution) => caution.text));
  return task.cautions.filter((caution) => !known.has(caution.text));
}

/** What ticking or skipping a task wrote: every entry in force of the instant its last mark was recorded. */
export function entriesOfTask(journal: readonly Entry[], key: string): number[] {
  const replaced = new Set(journal.map((entry) => entry.corrects).filter((id) => id !== null));
  const inForce = journal.filter((entry) => !replaced.has(entry.id) && entry.kind !== 'withdrawn');
  const mark = inForce.findLast(
    (entry) => (entry.kind === 'task-done' || entry.kind === 'task-skipped') && entry.fact.task === key,
  );
  return mark
    ? inForce.filter((entry) => entry.recorded_at === mark.recorded_at).map((entry) => entry.id)
    : [];
}
