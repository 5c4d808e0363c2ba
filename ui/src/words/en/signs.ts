// Signs that mean a veterinarian today, and a death.
import type { LeftHow, Sign } from '../../contract/vocabulary';

export const sign: Record<Sign, string> = {
  'pale-gums': 'Pale gums',
  limp: 'Limp',
  gaping: 'Gaping, bubbles',
  'cannot-right-itself': 'Cannot right itself',
  'red-belly': 'Red belly, blisters',
  'swollen-eyes': 'Swollen eyes',
  'retained-eye-caps': 'Eye caps kept on',
  'not-eating': 'Not eating, thinner',
  'many-mites': 'Over 50 mites, small animal',
};

export const leftHow: Record<LeftHow, string> = {
  sold: 'Sold',
  'given-away': 'Given away',
  died: 'Died',
  'put-to-sleep': 'Put to sleep by a veterinarian',
  escaped: 'Escaped',
  otherwise: 'Something else',
};

const most = 4;

export const deaths = {
  title: (name: string, day: string) => `${name} died, ${day}`,
  body: 'Body: bagged, in the refrigerator, not frozen. Ask a veterinarian to look at it within three days.',
  given: 'What it was given',
  stopped: 'Its company gets nothing against mites until somebody says on.',
  goOn: 'Treatment may go on',
  why: 'Why: what it died of, who says so',
  record: 'Record: it goes on',
};

export const veterinarian = {
  title: 'Veterinarian',
  lead: 'Whom to ring when an animal is ill or reacts. The number is then one tap away wherever it is needed.',
  who: 'Name',
  telephone: 'Telephone',
  telephoneHelp: 'As it is dialled: digits and spaces, + in front.',
  record: 'Record the veterinarian',
  change: 'Record another one',
  done: 'The veterinarian is on record.',
  ring: (who: string) => `Ring ${who}`,
  add: 'No veterinarian is on record: add one',
  told: (who: string, telephone: string) => `${who}, ${telephone}`,
};

export const given = {
  period: (from: string, to: string) => `${from} to ${to}`,
  died: (day: string) => `Died on ${day}. Keep the body bagged and cool, not frozen.`,
  none: 'Nothing is on record in these days.',
};

export const signs = {
  ask: 'Any of these?',
  about: (names: string[]) =>
    names.length > most
      ? `${names.slice(0, most).join(', ')} and ${names.length - most} more`
      : names.join(', '),
  none: 'None of these',
  who: 'Which animal?',
  save: 'Save: a veterinarian today',
  seenDone: (name: string) => `${name}: ring a veterinarian today.`,
  noneDone: (count: number) =>
    count === 1 ? 'None of these: on record.' : `None of these, ${count} animals: on record.`,
  noneTold: 'none of the signs',
  goneTold: (what: string) => `gone: ${what}`,
  vetToday: 'Ring a veterinarian today',
  meanwhile: 'Warm within its range, dark, dry. No further treatment.',
  goneAsk: 'Is a sign gone?',
  gone: (what: string) => `${what}: gone`,
};

export const keepOut = {
  working: 'Working out how soon new mites would be noticed',
  noticed: (days: number) => `Noticed within ${days} days`,
  noticedLead: 'One female comes in unseen. Every enclosure is looked at:',
  every: (days: number) => `every ${days} days`,
  range: (low: string, high: string) => `(${low} to ${high})`,
  asked: (asked: number, all: number) => `Worked out for ${asked} of ${all} enclosures, the most alike.`,
  trapsOff: 'Traps on the day’s list',
  trapsLead: 'One lies in every enclosure with animals. On the day, it is on the list to be read.',
  trapsOn: (days: number) => `Traps are on the day’s list, every ${days} days.`,
  trapsStart: (days: number) => `Read one every ${days} days`,
  trapsStop: 'No longer',
  habits: 'Habits',
  diseases: 'This is about mites alone: other diseases',
  diseasesLead:
    'What a quarantine also waits for, and what a veterinarian tests. From memory, to be verified.',
  byMites: '(mites may carry it)',
};

export const handover = {
  working: 'Putting together what was found and done',
  found: 'Found and done where it lived',
  mites: (day: string) => `Mites last seen: ${day}.`,
  noMites: 'No mites were seen where it lived.',
  noMitesYet: 'In its own enclosure nobody has seen any so far; that does not clear it.',
  checks: (count: number, last: string) =>
    `Checks without mites: ${count}${last ? `; the last check: ${last}` : ''}.`,
  sure: (chance: string, low: string, high: string, day: string) =>
    `No mite with it on ${day}: ${chance} (${low} to ${high}).`,
  notSure: 'No mites were ever on record, so nothing is worked out.',
  watch: 'For whoever takes it',
};

export const bites = {
  title: 'Itching spots on people?',
  lines: [
    'Snake mites bite people, too. They do not live on us.',
    'Shower; clothes off, washed hot.',
    'Swelling, fever or a rash that spreads: a physician.',
  ],
};
