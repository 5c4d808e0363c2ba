// What the printed plan can say of an enclosure from the shopping list and today's worklist.
import type { Answers, Task } from '../../contract/answers';
import { words } from '../../words/en';

export interface Course {
  bedding: number;
  animals: { animal: string; times: number }[];
}

/** How often the enclosure and each of its animals is sprayed in what is left of the course. */
export function courseOf(
  shopping: Pick<Answers['shopping'], 'enclosures' | 'animals'>,
  tub: string,
  inside: readonly string[],
): Course {
  return {
    bedding: shopping.enclosures.find((one) => one.enclosure === tub)?.sprayings ?? 0,
    animals: shopping.animals
      .filter((one) => inside.includes(one.animal) && one.times > 0)
      .map(({ animal, times }) => ({ animal, times })),
  };
}

/** The letters of what is done in an enclosure today. */
export function lettersToday(tasks: readonly Task[], tub: string): string {
  const done = tasks.filter((task) => task.enclosure === tub && task.method);
  return [...new Set(done.map((task) => words.plan.letters[task.method ?? ''] ?? '•'))].join(' ');
}
