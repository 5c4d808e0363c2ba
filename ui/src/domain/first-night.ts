// What is told on the first night, and the facts it makes. What was asked and not answered is not known: it never counts as no.
import { askedStateChoices, type AskedState } from '../contract/vocabulary';
import type { Seen, SeenWhere } from '../contract/answers';
import { Adder, type OnRecord, type RoomKind, type TubKind } from './adding';
import { fact, type Fact } from './facts';

export type Said = 'no' | 'yes' | 'unknown';
/** Of all animals; of `yes` those meant. */
export interface StateAnswer {
  said: Said | null;
  who: number[];
}
export type StateAnswers = Record<AskedState, StateAnswer>;

export interface Night {
  animals: { name: string; tub: string; kind: string; mass_g: number | null }[];
  states: StateAnswers;
  /** Kinds of other pets; null: asked and not known. */
  pets: { name: string; taxon: string }[] | null;
  seen: { animal: number; where: SeenWhere; count: Seen };
}

/** What is told of one animal: null where nobody could say. */
export function stateOf({ said, who }: StateAnswer, animal: number): boolean | null {
  if (said === 'no') return false;
  if (said !== 'yes' || who.length === 0) return null;
  return who.includes(animal);
}

/** Of the states that are asked: yes as what it is, the rest as asked. */
export function stateFacts(animal: string, index: number, states: Partial<StateAnswers>): Fact[] {
  const of = (answer: boolean | null): AskedState[] =>
    askedStateChoices.filter((state) => {
      const asked = states[state];
      return asked !== undefined && stateOf(asked, index) === answer;
    });
  const is = of(true);
  const [no, unknown] = [of(false), of(null)];
  const note = { present: true, agent: '', note: '' };
  return [
    ...(no.length + unknown.length > 0 ? [fact('state-asked', { animal, no, unknown })] : []),
    ...(is.includes('shed') ? [fact('shed-seen', { animal, state: 'cloudy' })] : []),
    ...(is.includes('gravid') ? [fact('condition-noted', { animal, condition: 'gravid', ...note })] : []),
    ...(is.includes('newborn') ? [fact('condition-noted', { animal, condition: 'neonate', ...note })] : []),
  ];
}

/** Everything that goes on record at once: all of it or nothing. `since`: the day the animals came. */
export function factsOf(
  night: Night,
  place: { onRecord: OnRecord; roomName: string; room: RoomKind; tub: TubKind; since: string | undefined },
  petUnknown: string,
): Fact[] {
  const adder = new Adder(place.onRecord, place.room, place.tub);
  const room = adder.room(place.roomName);
  const after: Fact[] = [];
  night.animals.forEach(({ name, tub, kind, mass_g }, index) => {
    const enclosure = adder.enclosure(tub, room);
    const body = { taxon: kind, origin: '', enclosure, quarantine: false };
    const animal = adder.animal(name, body, place.since);
    if (mass_g !== null) adder.weight(animal, mass_g);
    after.push(...stateFacts(animal, index, night.states));
    const { animal: where_at, where, count } = night.seen;
    if (index === where_at) after.push(fact('sighted', { enclosure, count, where }));
  });
  const pets = night.pets ?? [{ name: petUnknown, taxon: '' }];
  return [
    ...adder.facts,
    ...pets.map(({ name, taxon }) => fact('bystander-noted', { name, taxon, room: '' })),
    ...after,
  ];
}
