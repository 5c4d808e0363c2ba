// One line of the journal in words.
import { showMass, showStrength, showTemperature, showVolume, type Units } from '../format';
import { words } from '../words/en';
import type { Entry } from '../contract/answers';
import type { Fact } from './facts';

export interface Names {
  animal: (id: string) => string;
  enclosure: (id: string) => string;
  room: (id: string) => string;
}

/** For what has no amount in it. */
const noUnits: Units = { system: 'metric', scale: 'C' };
const joined = (parts: (string | null | false)[]): string => parts.filter(Boolean).join(', ');

/** A field by its key: who or what it names, or an amount by the unit it ends in. */
function tellField(key: string, value: unknown, names: Names, units: Units): string | null {
  if (Array.isArray(value)) return value.map((one) => tellField(key, one, names, units)).join(', ');
  if (typeof value === 'number') {
    if (key.endsWith('_mg_per_l')) return showStrength(value);
    return key.endsWith('_g') ? showMass(value, units) : String(value);
  }
  if (typeof value !== 'string') return null;
  if (key === 'animal' || key === 'animals') return names.animal(value);
  if (key === 'enclosure') return names.enclosure(value);
  return key === 'room' ? names.room(value) : value;
}

/** What is just put on record, in one breath: its kind, and whom or what it is about. */
export function tellRecorded(facts: readonly Fact[], names: Names): string {
  const about = new Set(
    facts.flatMap(({ body }) => {
      const who = body as Record<string, unknown>;
      const key = ['animal', 'animals', 'enclosure', 'room', 'thing', 'stock', 'batch'].find(
        (one) => who[one] && who[one] !== '',
      );
      return key ? (tellField(key, who[key], names, noUnits) ?? []) : [];
    }),
  );
  const [most, kind] = [3, facts[0]?.kind];
  const shown = [...about].slice(0, most);
  const rest = about.size - shown.length;
  const told = [...shown, rest > 0 && words.common.andMore(rest)].filter(Boolean).join(', ');
  return words.telling.recorded(kind ? words.entries[kind] : '', told);
}

/** What an entry says beside its kind. Most say their fields in order; those told otherwise stand here. */
export function tell(entry: Entry, names: Names, units: Units): string {
  const many = (ids: string[]): string => ids.map(names.animal).join(', ');
  switch (entry.kind) {
    case 'room-added':
      return joined([entry.fact.name, showTemperature(entry.fact.day_c, units)]);
    case 'enclosure-added':
      return joined([
        entry.fact.name,
        names.room(entry.fact.room),
        words.animals.substrates[entry.fact.substrate],
      ]);
    case 'animal-arrived':
      return joined([
        entry.fact.name,
        entry.fact.taxon,
        names.enclosure(entry.fact.enclosure),
        entry.fact.quarantine && words.animals.quarantine,
      ]);
    case 'bystander-noted':
      return joined([entry.fact.name, entry.fact.taxon]);
    case 'bystander-moved':
      return joined([
        entry.fact.name || entry.fact.taxon,
        entry.fact.out ? words.telling.movedOut : words.telling.isBack,
      ]);
    case 'trap-routine':
      return words.telling.traps(entry.fact.every_days);
    case 'animal-moved':
      return joined([
        `${names.animal(entry.fact.animal)} → ${names.enclosure(entry.fact.to)}`,
        entry.fact.knowing === true && words.telling.knowing(entry.fact.knowing_reason ?? ''),
      ]);
    case 'animal-left':
      return joined([
        names.animal(entry.fact.animal),
        entry.fact.how !== null && words.leftHow[entry.fact.how].toLowerCase(),
        entry.fact.reason,
        entry.fact.knowing === true && words.telling.knowing(entry.fact.knowing_reason ?? ''),
      ]);
    case 'item-shared':
      return `${entry.fact.item}: ${names.enclosure(entry.fact.from)} → ${names.enclosure(entry.fact.to)}`;
    case 'outside-contact':
      return joined([
        words.outside[entry.fact.what],
        entry.fact.rooms.map(names.room).join(', '),
        entry.fact.enclosures.map(names.enclosure).join(', '),
        entry.fact.note,
      ]);
    case 'thing-kept':
      return joined([
        words.thing[entry.fact.what],
        entry.fact.enclosure !== null && names.enclosure(entry.fact.enclosure),
        entry.fact.room !== null && names.room(entry.fact.room),
        entry.fact.by !== null && words.thingMethod[entry.fact.by].toLowerCase(),
      ]);
    case 'thing-treated':
      return joined([entry.fact.thing, words.thingMethod[entry.fact.method].toLowerCase()]);
    case 'shed-seen':
      return `${names.animal(entry.fact.animal)}, ${words.animals.sheds[entry.fact.state].toLowerCase()}`;
    case 'meal':
      return joined([
        names.animal(entry.fact.animal),
        words.meals.tell(entry.fact, entry.fact.mass_g === null ? null : showMass(entry.fact.mass_g, units)),
        entry.fact.treated_prey && words.meals.treated.toLowerCase(),
      ]);
    case 'eggs':
      return joined([
        names.enclosure(entry.fact.enclosure),
        !entry.fact.present && words.eggs.gone.toLowerCase(),
      ]);
    case 'condition-noted':
      return joined([
        names.animal(entry.fact.animal),
        words.condition[entry.fact.condition].toLowerCase(),
        !entry.fact.present && words.animals.over.toLowerCase(),
        entry.fact.agent,
        entry.fact.note,
      ]);
    case 'signs-noted':
      return joined([
        names.animal(entry.fact.animal),
        entry.fact.seen.map((one) => words.sign[one].toLowerCase()).join(', '),
        entry.fact.gone.length > 0 &&
          words.signs.goneTold(entry.fact.gone.map((one) => words.sign[one].toLowerCase()).join(', ')),
        entry.fact.seen.length + entry.fact.gone.length === 0 && words.signs.noneTold,
      ]);
    case 'sighted':
      return joined([
        names.enclosure(entry.fact.enclosure),
        words.seen[entry.fact.count].toLowerCase(),
        words.seenWhere[entry.fact.where].toLowerCase(),
      ]);
    case 'checked':
      return joined([
        names.enclosure(entry.fact.enclosure),
        words.checkMethod[entry.fact.method].toLowerCase(),
        words.seen[entry.fact.count].toLowerCase(),
      ]);
    case 'treated':
      return joined([
        many(entry.fact.animals) || names.enclosure(entry.fact.enclosure),
        words.method[entry.fact.method].toLowerCase(),
        entry.fact.strength_mg_per_l !== null && showStrength(entry.fact.strength_mg_per_l),
      ]);
    case 'substrate-changed':
      return `${names.enclosure(entry.fact.enclosure)}, ${words.animals.substrates[entry.fact.to].toLowerCase()}`;
    case 'water-moved':
      return `${names.enclosure(entry.fact.enclosure)}, ${(entry.fact.out ? words.animals.takeOut : words.animals.putBack).toLowerCase()}`;
    case 'vet-direction':
      return joined([
        names.animal(entry.fact.animal),
        words.method[entry.fact.method].toLowerCase(),
        entry.fact.who,
        entry.fact.text,
        entry.fact.up_to_mg_per_l !== null && words.telling.upTo(showStrength(entry.fact.up_to_mg_per_l)),
        entry.fact.treatments !== null && words.telling.treatments(entry.fact.treatments),
      ]);
    case 'strength-acknowledged':
      return joined([
        entry.fact.animal !== null && names.animal(entry.fact.animal),
        showStrength(entry.fact.strength_mg_per_l),
      ]);
    case 'plan-adopted':
      return words.telling.plan(entry.fact.rounds.length, entry.fact.enclosures.length);
    case 'withdrawn':
      return joined([entry.corrects !== null && words.telling.withdrawn(entry.corrects), entry.fact.reason]);
    case 'stock-kept':
      return joined([entry.fact.stock, showStrength(entry.fact.strength_mg_per_l)]);
    case 'batch-made':
      return joined([
        entry.fact.batch,
        showVolume(entry.fact.total_ml, units),
        showStrength(entry.fact.strength_mg_per_l),
      ]);
    default:
      return joined(Object.entries(entry.fact).map(([key, value]) => tellField(key, value, names, units)));
  }
}
