import { several } from './count';

/** Work of days gone by, the gravest first. */
export const late = {
  title: 'Late',
  dish: (place: string, since: string, days: number, backBy: string) =>
    `${place}: no water dish since ${since}, ${several(days, 'day', 'days')}. It was to be back by ${backBy}: put it back now.`,
  dishUnknown: (place: string) =>
    `The water dish of ${place} is out, nobody knows since when: put it back now.`,
  missed: (number: number, of: number, day: string) =>
    `Round ${number} of ${of}, planned for ${day}, was missed.`,
  begun: (number: number, of: number, day: string) =>
    `Round ${number} of ${of}, planned for ${day}, is done in part.`,
  left: (tasks: number, enclosures: number) =>
    `${several(tasks, 'task is', 'tasks are')} left in ${several(enclosures, 'enclosure', 'enclosures')}.`,
  overtaken: 'A later round is due as well and takes its place.',
  notNow: (count: number) =>
    `${several(count, 'of them is', 'of them are')} not permitted today: the list says why.`,
  check: (count: number, day: string) =>
    `Nobody has looked for mites in ${several(count, 'enclosure', 'enclosures')} since ${day}, when it was due. The checks are on the list.`,
  chance: 'Chance that the course clears every mite',
  working: 'The chances are being worked out',
  stood: (day: string) => `As it stood on ${day}`,
  ifToday: 'If it is done today',
  ifMoved: 'If the rest is moved',
  today: 'Do it today',
  move: 'Move the rest',
  rounds: (days: string) => `Rounds: ${days}.`,
  held: (planned: string, day: string, least: number) =>
    `The round of ${planned} goes to ${day}: rounds are at least ${least} days apart.`,
  givenUp: (days: string) => `Given up: ${days}.`,
  doneToday: 'The late round is put to today; the rest stays.',
  doneMove: 'The late round is put to today and the rest moves with it.',
  openToday: 'Open the worklist',
  outTooLong: (day: string) => `Out too long: it was to be back by ${day}`,
  outUnknown: 'Out too long: nobody knows since when',
  tile: 'Water is out too long',
};

/** A check is answered. */
export const checkAnswer = {
  none: 'None seen',
  some: 'Saw some',
  noneOf: (task: string) => `None seen: ${task}`,
  someOf: (task: string) => `Saw some: ${task}`,
  noneDone: (place: string) => `${place}: looked at, none seen.`,
  someDone: (place: string) => `${place}: mites on record. See who is exposed on the Situation.`,
};
