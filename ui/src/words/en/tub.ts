import { several } from './count';

/** Today, one tub at a time. */
export const tub = {
  of: (number: number, all: number) => `${number} of ${all}`,
  list: 'As a list',
  oneByOne: 'One tub at a time',
  bench: 'At the bench',
  room: (name: string) => `The room: ${name}`,
  before: 'Before you open it',
  warnings: 'Of this animal',
  leave: (task: string) => `Leave out for now: ${task}`,
  take: (task: string) => `Do it after all: ${task}`,
  left: 'Stays open',
  check: 'First say what you saw',
  done: (count: number, all: number, isTub: boolean) => {
    const what = isTub ? 'Tub done' : 'Done';
    return count === 0 ? 'Next' : count === all ? what : `${what}: ${count} of ${all} steps`;
  },
  recorded: (name: string, count: number) => `${name}: ${several(count, 'step', 'steps')} done.`,
  previous: 'The one before',
  next: 'The next one',
  read: 'I have read this',
  readFirst: (from: number, to: number, all: number) =>
    `It holds all day: ${from === to ? from : `${from} to ${to}`} of ${all}`,
  answers: 'Something is late or waits for an answer.',
  allDone: 'Everything for today is done.',
  open: (count: number) => `${several(count, 'tub has', 'tubs have')} steps left.`,
  toOpen: 'Go to them',
  notHere: (count: number) => `Left out here, and why (${count})`,
  steps: 'Steps',
};
