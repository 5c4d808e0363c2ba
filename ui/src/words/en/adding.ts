import { several } from './count';

export const add = {
  lead: 'One line for every animal; each gets a tub of its own unless you name one it shares.',
  room: 'Room',
  newRoom: 'A new room',
  roomName: 'Name of the room',
  roomSize: 'Floor of the room',
  roomSizes: { small: 'Cupboard, 3 m²', middle: 'Bedroom, 12 m²', large: 'Hall, 40 m²' },
  tubs: 'All the tubs in this list',
  tubName: 'Tubs are called',
  tubSize: 'Inner floor',
  tubSizes: { small: 'Hatchling tub, 20 × 30 cm', middle: 'Tub, 45 × 85 cm', large: 'Vivarium, 60 × 120 cm' },
  roomDay: 'Room by day',
  roomNight: 'Room at night',
  warmDay: 'Tub by day',
  warmNight: 'Tub at night',
  humidity: 'Humidity, %',
  climate: 'Climate and size',
  animals: 'Animals',
  name: 'Name',
  kind: 'Kind',
  kindSame: 'as above',
  tub: 'Tub',
  weight: 'Weight',
  line: (row: number) => `Line ${row}`,
  field: (name: string, row: number) => `${name}, line ${row}`,
  noName: 'This line has no name. Give one, or empty the line.',
  unknownKind: (kind: string) =>
    `“${kind}” is not known to Mitefall: it will be treated as unknown, so nothing is allowed for it.`,
  didYouMean: 'Did you mean',
  understoodKind: (written: string, name: string, scientific: string) =>
    `“${written}” is understood as ${name} (${scientific}).`,
  whichKind: (written: string) => `“${written}” may be several kinds. Which is it?`,
  leaveAsWritten: 'I do not know which: leave it as it is written',
  leftAsWritten: (written: string) =>
    `“${written}” stays as it is written, and is treated as the most delicate or dangerous of these, or as unknown.`,
  offered: (name: string, scientific: string, unidentified: boolean) =>
    unidentified ? `I do not know which: ${name}` : name === scientific ? name : `${name} (${scientific})`,
  sayWhich: (kinds: readonly string[]) =>
    `Say which kind ${kinds.map((kind) => `“${kind}”`).join(', ')} is. Nothing is added before.`,
  moreLines: 'Add 10 lines',
  clear: 'Clear the list',
  cleared: 'The list is empty again.',
  here: 'They have been here since',
  heres: {
    long: 'A long time (more than half a year)',
    since: 'A day I give',
    today: 'They arrived today, from outside',
  },
  since: 'Since',
  needsName: 'A name is missing.',
  sinceMissing: 'Give the day, or choose “A long time”.',
  sinceFuture: 'This day has not come yet.',
  quarantine: 'They are in quarantine',
  save: (count: number) => (count === 1 ? 'Add 1 animal' : `Add ${count} animals`),
  saveTubs: 'Add the empty tubs',
  emptyTubs: 'Empty tubs to add',
  done: (count: number) => (count === 1 ? '1 animal is on record.' : `${count} animals are on record.`),
  doneTubs: (count: number) => (count === 1 ? '1 tub is on record.' : `${count} tubs are on record.`),
};

/** What is wrong with a row or a cell of a table. */
const faults = {
  'no-animal': () => 'there is neither an animal nor an enclosure',
  'no-enclosure': (name: string) => `${name} has no enclosure`,
  'on-record': (name: string) => `${name} is there already`,
  'not-a-number': (value: string) => `“${value}” is not a number.`,
  'two-numbers': (value: string) => `“${value}” may be two numbers. Write it without a mark of thousands.`,
  'not-above-zero': (value: string) => `“${value}” is not above zero.`,
  'too-heavy': (value: string) => `“${value}” is too heavy.`,
  'not-possible': (value: string) => `“${value}” cannot be.`,
  'not-a-day': (value: string) => `“${value}” is not a day. Write it like 14 Mar 2026.`,
  'two-days': (value: string) => `“${value}” may be two days.`,
  'day-to-come': (value: string) => `“${value}” has not come yet.`,
  'not-a-choice': (value: string) => `“${value}” is not known.`,
  refused: (value: string) => `“${value}” does not fit what is on record.`,
};

export const importing = {
  lead: 'From a spreadsheet: save it as CSV, choose the file or paste the rows. Nothing is added before you have seen what it will be.',
  file: 'CSV file',
  paste: 'Or paste the rows here, the first with the names of the columns',
  columns: 'What the columns mean',
  ignore: 'Leave out',
  fields: {
    animal: 'Animal',
    kind: 'Kind',
    enclosure: 'Enclosure',
    room: 'Room',
    weight: 'Weight',
    arrived: 'Here since',
    origin: 'Comes from',
    quarantine: 'In quarantine',
    material: 'Material',
    substrate: 'Substrate',
    day_c: 'By day, °C',
    night_c: 'At night, °C',
    humidity: 'Humidity, %',
    floor: 'Floor, cm²',
  },
  askQuarantine: (animals: number) =>
    animals === 1 ? 'Put the new animal in quarantine?' : `Put the ${animals} new animals in quarantine?`,
  quarantineKeys: { yes: 'Yes, in quarantine', no: 'No, not in quarantine' },
  quarantineLead:
    'Proposed for animals that come from outside. Where the table itself says yes or no, that counts.',
  quarantines: { yes: 'Yes', no: 'No' },
  preview: 'What will be added',
  counts: (rooms: number, tubs: number, animals: number, weights: number) =>
    [
      several(rooms, 'room', 'rooms'),
      several(tubs, 'enclosure', 'enclosures'),
      several(animals, 'animal', 'animals'),
      several(weights, 'weight', 'weights'),
    ].join(', '),
  order: 'How are the days written?',
  orders: { day: 'Day first: 14/03/2026', month: 'Month first: 03/14/2026' },
  orderLead: 'Some days in this table can be read in two ways.',
  cells: (count: number) =>
    count === 1
      ? '1 cell is not understood and left empty'
      : `${count} cells are not understood and left empty`,
  cellsLead: 'The rest of their rows is added. Correct the table, or let the weights and days follow later.',
  notTaken: 'Not understood',
  instead: (day: string) => `Not understood: ${day} instead`,
  server: (what: string, value: string) => (value ? `${what}: “${value}”` : what),
  unknownKinds: 'Not known to Mitefall',
  understoodKinds: 'Short names, as they are understood',
  understoodKind: (written: string, count: number, name: string, scientific: string) =>
    `“${written}”, ${several(count, 'animal', 'animals')}: ${name} (${scientific})`,
  whichKind: (written: string, count: number) =>
    `“${written}”, ${several(count, 'animal', 'animals')}: it may be several kinds. Which is it?`,
  asWritten: (written: string) => `in the table: ${written}`,
  unknownKindsLead: 'They will be treated as unknown, so nothing is allowed for them.',
  moreRows: (count: number) => `and ${count} more`,
  problems: (count: number) => (count === 1 ? '1 row has a problem' : `${count} rows have problems`),
  row: (row: number) => `Row ${row}`,
  /** By what is wrong, as the program tells it. */
  fault: (fault: keyof typeof faults, value: string, field: string | null) =>
    field ? `${field}: ${faults[fault](value)}` : faults[fault](value),
  sameName: (name: string, rows: readonly number[], onRecord: boolean) =>
    onRecord
      ? `${name} (row ${rows.join(', ')}): there is an animal of that name already. Is this another?`
      : `${name} stands in rows ${rows.join(', ')}. Are they different animals?`,
  sameNames: { 'leave-out': 'The same: leave the row out', other: 'Another animal: add it' },
  checked: 'The server has checked all of it: it can be added.',
  checking: 'Being checked',
  add: 'Add all of it',
  leaveOut: 'Rows with problems are left out.',
  done: (count: number) => `${count} entries are on record.`,
  defaults: 'Where the table says nothing',
};
