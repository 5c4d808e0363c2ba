// Meals, weights beside them, and eggs.
import type { MealOutcome } from '../../contract/vocabulary';

interface Told {
  outcome: MealOutcome;
  prey: string | null;
  number: number | null;
}

const outcome: Record<MealOutcome, string> = {
  eaten: 'Eaten',
  refused: 'Refused',
  regurgitated: 'Brought up again',
};

/** "adult mouse × 2, 40 g"; empty where nothing is known. */
const preyOf = ({ prey, number }: Omit<Told, 'outcome'>, mass: string | null): string =>
  [`${prey ?? ''}${number ? ` × ${number}` : ''}`.trim(), mass].filter(Boolean).join(', ');

export const meals = {
  title: 'Meals',
  what: 'What became of it?',
  outcome,
  ateAgain: (meal: Omit<Told, 'outcome'>, mass: string | null) => `Ate: ${preyOf(meal, mass)}`,
  refusedAgain: 'Refused it',
  first: 'A meal',
  another: 'Another meal, or one brought up',
  record: 'Record the meal',
  done: 'The meal is on record.',
  prey: 'Prey',
  number: 'How many',
  mass: 'All together',
  massHelp: 'Without it the meal counts as a large one.',
  treated: 'It was treated for mites of its own',
  neverTreated: 'Never feed rodents that were treated for mites.',
  tell: (meal: Told, mass: string | null) =>
    [outcome[meal.outcome], preyOf(meal, mass)].filter(Boolean).join(': '),
  chart: (name: string) => `Weight and meals of ${name}`,
  weighings: (count: number, first: string, last: string) =>
    count === 1 ? `Weighed once: ${last}.` : `Weighed ${count} times, first ${first}, last ${last}.`,
  counts: (eaten: number, refused: number, cameUp: number) =>
    `Meals: ${eaten} eaten, ${refused} refused, ${cameUp} brought up again.`,
  lost: (mass: string, percent: string, since: string) => `Lost ${mass} (${percent} %) since ${since}`,
};

export const eggs = {
  title: 'Eggs',
  lead: 'Nothing is done in here against mites while there are any.',
  here: 'Eggs are in here',
  gone: 'No eggs any more',
  since: (day: string) => `Since ${day}`,
};
