// Every screen there is, told once for all tests that go through all of them.

export type Gone = 'empty' | 'demo' | 'adopted';

/** Screens that are there whatever is on record, by what they are for. */
const always = {
  'the first night': [
    '',
    'is-it-a-mite',
    'ten-minutes',
    'first-night',
    'sighting',
    'tonight',
    'today',
    'tub',
  ],
  'mixing and checking': [
    'mix',
    'mix/strength',
    'mix/batches',
    'mix/shopping',
    'cupboard',
    'checks',
    'checks/record',
    'checks/sure',
    'checks/next',
    'checks/release',
    'checks/origin',
    'checks/out',
  ],
  'the collection': [
    'collection',
    'collection/enclosures',
    'collection/add',
    'collection/import',
    'collection/journal',
    'contact/outside',
  ],
  'plan, numbers and paper': [
    'plan/choose',
    'plan/verdicts',
    'evidence',
    'evidence/sources',
    'settings',
    'more',
    'print/worklist',
    'print/enclosures',
  ],
};
type Group = keyof typeof always;

const ofAnimals: Partial<Record<Group, string[]>> = {
  'the collection': [
    'animal/ada',
    'enclosure/a-05',
    'room/snakes',
    'contact/item/a-05',
    'contact/handled/a-05',
  ],
  'plan, numbers and paper': ['print/vet/ada', 'print/buyer/ada'],
};

const ofPlan: Partial<Record<Group, string[]>> = {
  'plan, numbers and paper': ['plan/now', 'evidence/matters', 'print/plan', 'print/given/ada'],
};

/** The screens of a collection, by what they are for. */
export function placesOf(collection: Gone): [Group, string[]][] {
  return (Object.keys(always) as Group[]).map((group) => [
    group,
    [
      ...always[group],
      ...(collection === 'empty' ? [] : (ofAnimals[group] ?? [])),
      ...(collection === 'adopted' ? (ofPlan[group] ?? []) : []),
    ],
  ]);
}
