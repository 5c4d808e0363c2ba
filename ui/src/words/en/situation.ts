import type { Task } from '../../contract/answers';
import { several } from './count';

type State = Task['state'];
const said: Record<State, string> = { open: 'Open', done: 'Done', skipped: 'Skipped' };

export const situation = {
  title: 'Situation',
  report: 'Report a sighting',
  clear: 'Chance that no mite is left today',
  outlook: 'Chance that the plan ends with no mite alive',
  working: 'Weighing everything on record',
  neverSeen: 'No mites on record',
  neverSeenLead: 'Nothing has been sighted. If a speck moves, report it at once: three taps.',
  lastSeen: (when: string) => `Mites last seen ${when}`,
  tonight: 'Who is exposed',
  roomCount: (exposed: number, seen: number, all: number) =>
    [
      several(all, 'enclosure', 'enclosures'),
      seen > 0 ? `mites seen in ${seen}` : '',
      exposed > 0 ? `${exposed} exposed` : '',
    ]
      .filter(Boolean)
      .join(', '),
  noneSeen: 'None seen here',
  nobody: 'Empty',
  clearShort: (chance: string) => `Clear: ${chance}`,
  reached: (chance: string) => `Reached: ${chance}`,
  due: (count: number) => `${count} due`,
  allDone: 'Done for today',
  quarantine: 'Quarantine',
  waterOut: 'Water is out',
  show: 'Show',
  filters: { all: 'All', exposed: 'Seen or exposed', due: 'Due today', quarantine: 'Quarantine' },
  find: 'Find an enclosure or an animal',
  nothing: 'No enclosure fits.',
};

export const start = {
  title: 'Begin with your animals',
  lead: 'Then Mitefall tells who is exposed, what each may be given, and when it is over.',
  speck: 'A speck has moved?',
  speckPicture: 'A mite, magnified: a dark round bead with eight legs',
  add: 'Add rooms, tubs and animals',
  addLead: 'No mites yet? Ten animals take two minutes.',
  import: 'Import a table',
  importLead: 'From a spreadsheet: CSV. You see it before it is added.',
};

export const sighting = {
  title: 'Report a sighting',
  step: (step: number) => `Tap ${step} of 3`,
  where: 'In which enclosure?',
  find: 'Find an enclosure or an animal',
  howMany: 'How many mites did you see?',
  whereOn: 'Where were they?',
  change: 'Change',
  chosen: (name: string) => `In ${name}`,
  counted: (count: string) => `Seen: ${count}`,
  done: (name: string) => `Sighting in ${name} is on record.`,
  nothing: 'Nothing fits. Search by the name of an enclosure or an animal.',
  noTubs: 'No tub is on record yet: add the one it was in.',
  recent: 'Seen or checked lately first, then the most exposed',
};

export const tonight = {
  title: 'Tonight',
  lead: 'Who may have been reached, and by which path.',
  isolateTitle: 'Tonight, before anything else',
  isolate: [
    'Nothing leaves an exposed enclosure for another: no animal, tool, hide or water bowl.',
    'Work from healthy to exposed to where mites were seen; wash hands and change gloves between.',
    'Do not spray anything before the plan says what each animal may be given.',
  ],
  seenIn: 'Mites were seen in',
  noFind: 'No mite was seen. This is what contact with the outside may have brought, and where to.',
  reachedTitle: 'Who may have been reached',
  onFoot: (count: number, names: string) => (count > 6 ? `${count} enclosures` : names),
  walked: (room: string) => `Mites walking on their own, to any enclosure of ${room}`,
  rest: (count: number) =>
    `${several(count, 'more enclosure has', 'more enclosures have')} no contact on record. That is no proof.`,
  ways: {
    sighted: 'seen',
    outside: 'from outside',
    'moved-from': 'lived there',
    'moved-to': 'moved',
    'handled-after': 'same hands',
    'shared-bag': 'same bag',
    'shared-item': 'shared thing',
    'same-room': 'on foot',
    'adjoining-room': 'next door',
  },
  map: {
    title: 'Which way mites may have gone',
    seen: 'seen here',
    several: (count: number, room: string) => `${count} in ${room}`,
    more: (count: number) => `${count} more in the list.`,
  },
  arrivals: 'Who may have brought them',
  toPlan: 'Work out the plans',
  toPlanLead: 'Every plan keeps to what each animal can safely be given.',
  origin: 'Where they came from, in detail',
};

export const today = {
  title: 'Today',
  none: 'Nothing is on the worklist',
  noneLead: 'Adopt a plan and its tasks appear here, day by day.',
  progress: (done: number, all: number) => `${done} of ${all} done`,
  show: 'Show',
  filters: { open: 'Still open', all: 'All' },
  tick: (text: string) => `Done: ${text}`,
  tickShort: 'Done',
  states: said,
  more: (text: string) => `More about: ${text}`,
  moreShort: 'More',
  done: 'Done',
  skipped: (reason: string) => `Skipped: ${reason}`,
  waiting: 'Waits to be sent',
  late: (day: string) => `Planned for ${day}`,
  wholeHouse: 'Before and between',
  inRoom: 'The room itself',
  cautions: 'Read this first',
  steps: (done: number, all: number) => `Step by step (${done > 0 ? `${done} of ` : ''}${all})`,
  cautionsDay: 'Read this first: it holds all day',
  passedOver: (count: number) => `Passed over today, and why (${count})`,
  next: (when: string) => `Next work: ${when}.`,
  allDone: 'Everything for today is done.',
  nothingToTick: 'Nothing to tick today.',
  notes: 'Heed this',
  skip: 'Skip with a reason',
  reason: 'Why is it skipped?',
  reasons: ['No time', 'Not enough spray', 'The animal is in shed', 'The animal does not look well'],
  skipButton: 'Skip it',
  sawMite: 'Saw a mite here',
  reacted: 'The animal reacted',
  reactedLead: 'Stop. Rinse with lukewarm water, keep it warm, call a veterinarian.',
  reactedTitle: (name: string) => `${name} reacted`,
  whoReacted: 'Which animal reacted?',
  reactedKept: (name: string) =>
    `${name}: kept on this device; it is sent as soon as Mitefall can be reached. Until then the plan does not know: do not treat it again.`,
  agents: { ivermectin: 'Ivermectin', permethrin: 'Permethrin', water: 'Water', soap: 'Soap' },
  sawMiteIn: (name: string) => `mites seen in ${name}`,
  kept: 'Kept on this device; it is sent as soon as Mitefall can be reached.',
  tickDone: (text: string) => `Done: ${text}`,
  skipDone: (text: string) => `Skipped: ${text}`,
  isAlready: (text: string, state: State) => `${said[state]} already: ${text}. “More” takes it back.`,
  already: (text: string, state: State, when: string) =>
    `${said[state]} already, ${when}: ${text}. Nothing was added.`,
  staysDone: (state: State) =>
    `Yours is taken back; the task stays ${said[state].toLowerCase()}, as somebody else has it.`,
  howToMix: 'How to mix it',
  batchInDate: (name: string, day: string, amount: string) =>
    `Batch ${name} is in date: ${amount} made ${day}. Use it if enough is left.`,
  agent: 'What it reacted to',
  note: 'What you saw',
  reactedDone: (name: string) => `${name}: reaction on record. The plan now leaves it out.`,
  undoDone: 'Take back',
  drop: 'Forget it',
  missing: 'No longer on the list',
  unit: 'each',
};
