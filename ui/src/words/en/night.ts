import type { AskedState } from '../../contract/vocabulary';

export const minutes = {
  title: 'The next ten minutes',
  steps: {
    lid: 'Lid on. No animal, bowl or hide leaves it.',
    paper: 'Bedding out, white paper in. Not where eggs lie.',
    bag: 'Bedding into a bag, tied, out of the room.',
    hands: 'Wash hands and arms, hot and with soap.',
    clothes: 'Change clothes. Wash them hot.',
  },
  tick: (step: string) => `Done: ${step}`,
  notTitle: 'Not tonight',
  nots: {
    'no-spray': 'No spray, no drug, no oil yet.',
    'no-sharing': 'No bowl, hide or tool from tub to tub.',
    'no-touch': 'No hands on a snake you cannot name.',
  },
  soakNobody: 'A lukewarm soak? Not before we know which animal it is.',
  soak: (names: string) => `A lukewarm soak may be given to: ${names}.`,
  soakMany: (count: number) => `A lukewarm soak may be given to ${count} animals.`,
  soakNone: 'A lukewarm soak may be given to none of yours now.',
  soakWho: 'See who',
  next: 'Next: your animals',
  nextSeen: 'Next: where was it?',
  now: 'What to do now',
};

export const atHome = {
  title: 'What have you got at home?',
  things: {
    spray: 'Ivermectin to mix',
    tubs: 'Spare tubs',
    paper: 'White paper',
    syringe: 'Syringe',
  },
  nothing: 'Nothing yet',
  howMany: 'How many spare tubs?',
  lead: 'Plans begin with what is there.',
  wish: 'With what is at home',
  without: 'Without any spray',
};

const states: Record<AskedState, string> = {
  shed: 'Eyes cloudy, about to shed?',
  gravid: 'Gravid, or just laid?',
  newborn: 'Newborn, not yet shed once?',
};

export const firstNight = {
  title: 'Your snakes',
  many: 'How many?',
  manyWhy: (most: number) => `1 to ${most} here. More are added from the list.`,
  kind: 'Which kind?',
  kindOf: (name: string) => `Kind of ${name}`,
  notAlike: 'Not all the same kind',
  weight: (name: string, unit: string) => `${name}, ${unit}`,
  animal: (number: number) => `Snake ${number}`,
  tub: (number: number) => `Tub ${number}`,
  room: 'Snake room',
  names: 'Names can be changed later.',
  where: 'Where was the mite?',
  wheres: {
    'on-animal': 'on it',
    'in-water': 'in its water',
    'on-paper': 'on its paper',
    'on-hands': 'on my hands after',
  },
  seenAt: (name: string, where: string) => `${name}: ${where}`,
  count: 'How many did you see?',
  ask: 'Before anything is given',
  states,
  pets: 'Other pets at home?',
  noToAll: 'No to all four',
  no: 'No',
  yes: 'Yes',
  unsure: 'Not sure',
  who: 'Which?',
  open: 'What is left open stays forbidden until you know.',
  taken: (day: string) =>
    `Taken for granted: here for more than half a year, plastic tubs of 45 × 85 cm with loose bedding, ${day} by day.`,
  other: 'Not so: the full list',
  petUnknown: 'Other pets (not told)',
  save: 'Save, and work out the plan',
  needsKind: 'Say which kind. Without it nothing is allowed.',
  needsMany: 'Say how many.',
  needsSeen: 'Tap where the mite was, and how many.',
  done: (count: number) =>
    count === 1
      ? '1 animal and the sighting are on record.'
      : `${count} animals and the sighting are on record.`,
  have: 'Your animals are on record already.',
};

export const openStates = {
  title: 'Not known yet',
  ask: (name: string) => `${name}: until this is told, what it bears on is forbidden.`,
  done: (name: string) => `${name}: on record.`,
};

export const supplies = {
  title: 'To have at hand',
  lead: 'For the whole course, counted from its tasks. Gloves and bags are practice.',
  things: {
    gloves: (count: string) => `Gloves: ${count} pairs`,
    paper: (count: string, area: string) => `White paper: ${area}, for ${count} floors`,
    bags: (count: string) => `Bags to tie: ${count}`,
    'clean-tubs': (count: string) => `Clean plain tubs: ${count}`,
    'soak-tub': () => 'A tub to soak in, with a lid',
    cloths: (count: string) => `Cloths: ${count}`,
    'cotton-buds': (count: string) => `Cotton buds: at least ${count}`,
    'spray-bottle': () => 'A spray bottle',
    syringe: () => 'A measuring syringe',
  } satisfies Record<string, (count: string, area: string) => string>,
  noSpray: 'This plan sprays nothing: no drug to buy.',
};
