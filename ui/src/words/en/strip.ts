import type { JobResults } from '../../contract/answers';

type LifeStage = JobResults['why-days']['enclosures'][number]['stages'][number]['stage'];

const of100 = (mites: number): string =>
  mites > 0 && mites < 0.5 ? 'fewer than one' : String(Math.round(mites));
const days = (number: number): string => (number < 10 ? number.toFixed(1) : String(Math.round(number)));

/** Why a course has its days: the picture, what it says, and what other days would do. */
export const strip = {
  title: 'Why these days',
  working: 'Following the mites through the rounds',
  life: 'The life of an egg laid today',
  caughtOf: 'Caught, of 100 alive today',
  passedOf: 'Eggs that pass under',
  firstEggs: 'first eggs',
  shortStage: {
    egg: 'egg',
    larva: 'larva',
    protonymph: 'nymph',
    deutonymph: 'nymph 2',
    adult: 'adult',
  } satisfies Record<LifeStage, string>,
  place: (name: string, day: string, night: string) => `${name}: ${day} by day, ${night} by night`,
  warmest: 'Warmest',
  coldest: 'Coldest',
  eggs: (mites: number) =>
    `Of 100 alive today, eggs counted, ${of100(mites)} are eggs when round 1 is over: it passes over them.`,
  hatched: (mites: number) =>
    mites < 0.5
      ? 'By round 2 all of these have hatched, and can be caught.'
      : `By round 2 ${of100(mites)} are eggs still; the rest have hatched, and can be caught.`,
  again: (number: number) =>
    `A new egg lays eggs of its own after ${days(number)} days: a round before that breaks the line.`,
  tooCold: 'It is too cold here for a whole life.',
  short: (mites: number, still: number | null) =>
    still === null
      ? `${of100(mites)} of 100 are eggs and pass under round 1.`
      : `${of100(mites)} of 100 are eggs and pass under round 1; by round 2 ${of100(still)} still are.`,
  oneRound: 'There is no second round for what hatches.',
  checks: (count: number, from: string, to: string) =>
    count === 1 ? `Then a check: ${from}.` : `Then ${count} checks, ${from} to ${to}.`,
  about: (rounds: string[]) =>
    `Each round is a gate: ${rounds.join(' ')} All figures stand in the table below.`,
  aboutRound: (number: number, day: string, caught: number, eggs: number) =>
    `Round ${number}, ${day}, catches ${of100(caught)} and ${of100(eggs)} eggs pass under it.`,
  key: 'Dashed ring: reached by the round, filled: missed. White oval: eggs. Sizes and numbers: of 100 alive today.',
  stage: {
    egg: 'Egg',
    larva: 'Larva',
    protonymph: 'Nymph, until it has fed',
    deutonymph: 'Second nymph',
    adult: 'Adult, until her first eggs',
  } satisfies Record<LifeStage, string>,
  lasts: (mean: number, low: number, high: number) => `${days(mean)} days (${days(low)}–${days(high)})`,
  figures: 'What it shows, in figures',
  partOfLife: 'Part of life',
  takes: 'Takes (four in five)',
  day: 'Day',
  done: 'Done there',
  nothingDone: 'nothing',
  eggsBefore: 'Eggs before',
  othersBefore: 'Others before',
  caught: 'Caught',
  eggsAfter: 'Eggs that pass',
  othersAfter: 'Others missed',
  alive: 'Alive',
  check: 'Check',
  of100,
  alone:
    'Of 100 alive there today, young counted; as if the enclosure stood alone. Caught: on that day; what wet paper kills later is in the next row.',
  move: 'Try another day',
  moveLead: 'Nothing is changed by trying.',
  round: (number: number, day: string) => `Round ${number}: ${day}`,
  earlier: 'A day earlier',
  later: 'A day later',
  back: 'Days of the plan',
  now: 'Chance on these days',
  planned: (chance: string) => `On the days of the plan: ${chance}.`,
  leftOut: (more: number) =>
    more > 0
      ? `${more} treatments more are not permitted on these days.`
      : `${-more} treatments more are permitted on these days.`,
  adopt: 'Adopt with these days',
  adopted: 'The plan is on these days now.',
  table: 'What each round catches',
};
