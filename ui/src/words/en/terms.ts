// Words for the choices of the contract.
import type { CheckMethod, Condition, Danger, Method, Ruling, Seen, SeenWhere } from '../../contract/answers';
import type { OutsideKind, ThingKind, ThingMethod } from '../../contract/vocabulary';

export const danger: Record<Danger, string> = {
  healthy: 'No sign',
  exposed: 'Exposed',
  sighted: 'Mites seen',
};

export const ruling: Record<Ruling, string> = {
  allowed: 'Allowed',
  'bedding-only': 'Bedding only',
  'wait-until': 'Wait',
  'ask-vet': 'Ask a vet',
  never: 'Never',
};

export const method: Record<Method, string> = {
  'spray-animal': 'Ivermectin spray on the animal',
  'spray-bedding': 'Ivermectin spray on bedding and walls',
  soak: 'Soak in lukewarm water',
  wipe: 'Wipe down with a damp cloth',
  'clear-head': 'Head and eyes by cotton bud',
  'change-substrate': 'Change substrate to paper',
  'fresh-tub': 'Into a clean plain tub',
  'treat-room': 'Permethrin on floor and racks of the room',
  'permethrin-empty': 'Permethrin on the emptied enclosure',
  'fipronil-wipe': 'Fipronil wiped on the animal',
  'oral-afoxolaner': 'Afoxolaner by mouth',
  'oral-fluralaner': 'Fluralaner by mouth',
  'injected-ivermectin': 'Ivermectin by injection',
  'oil-wipe': 'Plain oil wiped on the animal',
  'soap-wash': 'Wash with mild soap',
  'heat-objects': 'Dry heat for the emptied enclosure',
  'freeze-objects': 'Freezer for hides and bowls',
  'desiccant-dust': 'Drying dust in the emptied enclosure',
  'predatory-mites': 'Predatory mites in the substrate',
};

export const seen: Record<Seen, string> = {
  none: 'None',
  '1': 'One',
  '2-10': '2 to 10',
  '11-50': '11 to 50',
  more: 'More than 50',
};

export const seenWhere: Record<SeenWhere, string> = {
  'on-animal': 'On the animal',
  'in-water': 'In the water',
  'on-hands': 'On my hands',
  'on-paper': 'On the paper',
};

export const checkMethod: Record<CheckMethod, string> = {
  'look-over': 'Looked over',
  soak: 'Soaked and looked',
  wipe: 'Wiped with white paper',
  'paper-trap': 'Paper left overnight',
};

export const condition: Record<Condition, string> = {
  sick: 'Sick',
  thin: 'Thin',
  dehydrated: 'Dehydrated',
  neonate: 'Neonate',
  gravid: 'Gravid',
  neurological: 'Neurological signs',
  reacted: 'Reacted to a treatment',
};

export const outside: Record<OutsideKind, string> = {
  show: 'A show or fair',
  shop: 'A shop',
  'animal-held': 'Somebody else’s animal held',
  visitor: 'A visitor with reptiles',
  'borrowed-thing': 'A borrowed or used thing',
  'second-hand-wood': 'Second-hand wood',
  'live-plants': 'Live plants',
};

export const tag: Record<string, string> = {
  R: 'published, read in the text named',
  R2: 'published, read in a text that cites it',
  M: 'from memory of the text named',
  C: 'computed from published figures',
  P: 'common practice',
  A: 'our assumption',
};

export const thing: Record<ThingKind, string> = {
  hide: 'Hide',
  cork: 'Cork or wooden hide',
  'card-box': 'Card box',
  branch: 'Branch',
  foliage: 'Plastic foliage',
  bowl: 'Water bowl',
  bag: 'Cloth bag',
  hook: 'Hook or tongs',
  rack: 'Rack',
  runner: 'Tub runner',
  'heat-mat': 'Heat mat',
  cable: 'Cable or sensor',
  floor: 'Floor around',
};

export const thingMethod: Record<ThingMethod, string> = {
  'wash-hot': 'Wash hot',
  'dry-heat': 'Dry heat',
  freeze: 'Freezer',
  'throw-away': 'Bag and throw away',
  'spray-and-air': 'Spray and air',
};

export const things = {
  title: 'Things',
  none: 'Nothing noted. What is noted here is on the list of each round.',
  how: (what: string) => `${what}: how it is freed of mites`,
  gone: 'Gone',
  goneOf: (what: string) => `${what} is gone`,
  kind: 'Another thing',
  add: 'Add',
};
