import type { CheckMethod, JobResults, Task } from '../../contract/answers';

type Checks = JobResults['next-check']['checks'];
export interface First {
  enclosure: string;
  /** That a look shows mites, if any are left anywhere. */
  shows: number;
}

/** The places whose look would tell most, at most `most`: those of one day and one way, in the order of the answer. Of
 * places of which the same is known each counts. */
export function firstChecks(
  checks: Checks,
  most: number,
): { checks: First[]; day: string; by: CheckMethod } | null {
  const best = checks[0];
  if (!best) return null;
  const same = checks.filter((one) => one.day === best.day && one.method === best.method);
  const all = new Map(
    same.flatMap((one) => one.enclosures.map((enclosure) => [enclosure, one.finds_if_left] as const)),
  );
  const first = [...all].slice(0, most).map(([enclosure, shows]) => ({ enclosure, shows }));
  return { checks: first, day: best.day, by: best.method };
}

/** Where today's list wants somebody to look, and nobody has answered. */
export const openChecks = (tasks: readonly Task[], isOpen: (task: Task) => boolean): string[] =>
  tasks.flatMap((task) => (task.kind === 'check' && task.enclosure && isOpen(task) ? [task.enclosure] : []));
