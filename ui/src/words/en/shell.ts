export const app = { name: 'Mitefall', skip: 'Skip to the screen' };

export const places = {
  label: 'Screens',
  situation: 'Situation',
  sighting: 'Report a sighting',
  tonight: 'Tonight',
  today: 'Today',
  plan: 'Plan',
  mix: 'Mix',
  checks: 'Checks',
  collection: 'Animals',
  evidence: 'Evidence',
  settings: 'Settings',
  more: 'More',
};

export const connection = {
  lost: 'No connection to Mitefall. What you see is what was last known; it will catch up by itself.',
  waiting: (count: number) => (count === 1 ? '1 tick waits to be sent.' : `${count} ticks wait to be sent.`),
  reportWaits: (what: string) => `Kept on this device, waits to be sent: ${what}`,
  refused: (count: number) => (count === 1 ? '1 tick was refused.' : `${count} ticks were refused.`),
  look: 'Look',
};

export const damage = {
  label: 'Damage in the collection',
  title: (count: number) =>
    count === 1 ? '1 entry is damaged and does not count.' : `${count} entries are damaged and do not count.`,
  means:
    'They may say why an animal must not be treated: until they are settled such treatments are not permitted. Look at what happened that day and put it on record again; then withdraw the damaged entry.',
  entry: (number: number) => `Entry ${number}`,
  withdraw: (number: number) => `Withdraw entry ${number}`,
  sure: (number: number) => `Withdraw entry ${number} for good?`,
  sureMeans: 'It stays readable in the history and will never count. This cannot be taken back.',
  reason: 'damaged',
  done: 'Withdrawn.',
};

export const faults = {
  unreachable: {
    what: 'Mitefall cannot be reached',
    remedy: 'See that it is running and that this device is on the same network; nothing you typed is lost',
  },
  unpaired: {
    what: 'this device is not paired',
    remedy: 'on the computer open Settings, share on the home network, and scan the code',
  },
  unreadable: {
    what: 'the answer could not be read',
    remedy: 'load the page again; if that does not help, start Mitefall again',
  },
  value: 'Given',
  limit: 'Limit',
  remedy: 'What to do',
  where: 'Where',
};

export const common = {
  cancel: 'Cancel',
  close: 'Close',
  undo: 'Undo',
  save: 'Put on record',
  back: 'Back',
  print: 'Print',
  search: 'Search',
  loading: 'One moment',
  working: (share: number) => `Working it out: ${share} %`,
  cancelled: 'Cancelled.',
  again: 'Work it out again',
  old: 'Being worked out anew; these are the figures from before.',
  asTable: 'Show as a table',
  asChart: 'Show as a chart',
  day: 'Day',
  range: 'range',
  why: 'Why',
  source: 'Source',
  none: 'none',
  more: (count: number) => `Show ${count} more`,
  andMore: (count: number) => `and ${count} more`,
  all: 'All',
  undone: 'Taken back.',
  undoMany: (count: number) => `Take back ${count} entries?`,
  undoManyMeans: 'All of them leave the records at once. They stay readable in the journal.',
  undoManyYes: (count: number) => `Take back all ${count}`,
  undoManyNo: 'Keep them',
  notUndone: (why: string) => `Not taken back: ${why}.`,
  closeNotice: 'Close this notice',
};

export const asking = {
  title: 'Mites could go along',
  sameName: 'The same name twice',
  noWater: 'It has no water',
  treatedPrey: 'Never feed this',
  tell: 'Tell whoever takes it',
  copy: 'Copy this',
  copied: 'Copied',
  notCopied: 'It could not be copied. Read it out or print it.',
  print: 'Print this',
  reason: 'Why all the same (may stay empty)',
  reasonHelp: 'It goes on record with the entry, and that you were warned.',
  working: 'Working out what it does to the chance',
  clear: (before: string, after: string) => `Chance that no mite is left: ${before} now, ${after} after it.`,
  course: (before: string, after: string) =>
    `Chance that the adopted plan clears them: ${before} now, ${after} after it.`,
  yes: 'Record it all the same',
  no: 'Do not record it',
};

export const pairing = {
  title: 'Pair this device',
  lead: 'This collection is shared on the home network. Each device is let in once, with the code shown on the computer.',
  code: 'Code',
  name: 'Name of this device',
  nameHelp: 'So that you know it again on the computer: “Kitchen phone”. You may leave it empty.',
  button: 'Pair',
  already: 'This device can see the collection already. There is nothing to pair.',
  goOn: 'Go to the situation',
  done: 'Paired. This device may now see and tick everything.',
  where: 'The code is on the computer that runs Mitefall: Settings, Share on the home network.',
};

export const chart = {
  to: 'to',
  marks: 'a round',
  chance: 'Chance',
  count: 'Number',
  hint: 'Touch the chart to read a day.',
  picture: (label: string) => `Chart: ${label}. The same figures are in the table.`,
};

export const pick = {
  find: 'Find an enclosure or an animal',
  count: (count: number) => `${count} chosen`,
  wholeRoom: 'Whole room',
  ofRoom: (chosen: number, all: number) => (chosen > 0 ? `${chosen} of ${all}` : `${all}`),
};
