// From what is typed into a list or read from a table to the facts of new rooms, enclosures and animals.
import type { CollectionAnswer } from '../contract/answers';
import { fact, nameFor, type Body, type Fact } from './facts';

export type EnclosureBody = Body<'enclosure-added'>;
export type RoomBody = Body<'room-added'>;
export type TubKind = Omit<EnclosureBody, 'enclosure' | 'name' | 'room'>;
export type RoomKind = Omit<RoomBody, 'room' | 'name'>;

/** Names on record, by id: what is there already is used, not added again. */
export interface OnRecord {
  rooms: ReadonlyMap<string, string>;
  enclosures: ReadonlyMap<string, string>;
  animals: ReadonlyMap<string, string>;
  /** The day from which a room or an enclosure of that id stands, where it is told. */
  since?: Places<string>;
  /** Animals that ever were here: a new one of the same name is another animal, with a record of its own. */
  ever?: ReadonlySet<string>;
}

export interface Places<T> {
  rooms: ReadonlyMap<string, T>;
  enclosures: ReadonlyMap<string, T>;
}

/** Names in use, by id: to find what is meant and to make names that are free. */
export function onRecord(collection: CollectionAnswer): OnRecord {
  return {
    rooms: new Map(collection.rooms.map((room) => [room.room, room.name])),
    enclosures: new Map(collection.enclosures.map((tub) => [tub.enclosure, tub.name])),
    animals: new Map(collection.animals.map((animal) => [animal.animal, animal.name])),
  };
}

/** Things of one sort: finds one by what it is called, or makes a new name on record for it. */
class Shelf {
  private readonly byName = new Map<string, string>();
  private readonly ids: Set<string>;

  constructor(onRecord: ReadonlyMap<string, string>, ever: ReadonlySet<string> = new Set()) {
    this.ids = new Set([...onRecord.keys(), ...ever]);
    for (const [id, name] of onRecord) {
      this.byName.set(id.toLowerCase(), id);
      this.byName.set(name.toLowerCase(), id);
    }
  }

  find(name: string): string | undefined {
    return this.byName.get(name.trim().toLowerCase());
  }

  make(name: string): string {
    const id = nameFor(name, this.ids);
    this.ids.add(id);
    this.byName.set(name.trim().toLowerCase(), id);
    return id;
  }
}

/** A fact with the line of the list, or the row of the table, it comes from. */
interface Gathered<T extends Fact = Fact> {
  fact: T;
  row: number;
}

const later = (a: string, b: string | undefined): string => (b && b > a ? b : a);

/** Gathers facts in an order in which each finds what it refers to. */
export class Adder {
  private readonly rooms: Shelf;
  private readonly enclosures: Shelf;
  private readonly animals: Shelf;
  private readonly roomFacts: Gathered<Fact<'room-added'>>[] = [];
  private readonly enclosureFacts: Gathered<Fact<'enclosure-added'>>[] = [];
  private readonly animalFacts: Gathered<Fact<'animal-arrived'>>[] = [];
  private readonly weightFacts: Gathered<Fact<'weighed'>>[] = [];
  /** The line or row that is being read. */
  row = 0;

  constructor(
    private readonly onRecord: OnRecord,
    private readonly roomKind: RoomKind,
    private readonly tubKind: TubKind,
  ) {
    this.rooms = new Shelf(onRecord.rooms);
    this.enclosures = new Shelf(onRecord.enclosures);
    this.animals = new Shelf(onRecord.animals, onRecord.ever);
  }

  /** The room of that name, added if it is new. */
  room(name: string): string {
    const found = this.rooms.find(name);
    if (found) return found;
    const room = this.rooms.make(name);
    const added = fact('room-added', { ...this.roomKind, room, name: name.trim() });
    this.roomFacts.push({ fact: added, row: this.row });
    return room;
  }

  /** The enclosure of that name, added to `room` if it is new; `kind` overrides the usual one. */
  enclosure(name: string, room: string, kind: Partial<TubKind> = {}): string {
    const found = this.enclosures.find(name);
    if (found) return found;
    const enclosure = this.enclosures.make(name);
    const body = { ...this.tubKind, ...kind, enclosure, name: name.trim(), room };
    this.enclosureFacts.push({ fact: fact('enclosure-added', body), row: this.row });
    return enclosure;
  }

  knowsEnclosure(name: string): boolean {
    return this.enclosures.find(name) !== undefined;
  }

  knowsAnimal(name: string): boolean {
    return this.animals.find(name) !== undefined;
  }

  animal(name: string, rest: Omit<Body<'animal-arrived'>, 'animal' | 'name'>, day?: string): string {
    const animal = this.animals.make(name);
    const arrived = fact('animal-arrived', { animal, name: name.trim(), ...rest }, day);
    this.animalFacts.push({ fact: arrived, row: this.row });
    return animal;
  }

  weight(animal: string, mass_g: number): void {
    this.weightFacts.push({ fact: fact('weighed', { animal, mass_g }), row: this.row });
  }

  get counts(): { rooms: number; tubs: number; animals: number; weights: number } {
    return {
      rooms: this.roomFacts.length,
      tubs: this.enclosureFacts.length,
      animals: this.animalFacts.length,
      weights: this.weightFacts.length,
    };
  }

  get facts(): Fact[] {
    return this.inOrder().map((one) => one.fact);
  }

  /** The line or row of each fact. */
  get rows(): number[] {
    return this.inOrder().map((one) => one.row);
  }

  /** New rooms and enclosures stand as early as the first animal; nothing comes to a place before it stands. */
  private inOrder(): Gathered[] {
    const first = this.animalFacts
      .map((one) => one.fact.day ?? '')
      .filter(Boolean)
      .sort()[0];
    if (!first) return [...this.roomFacts, ...this.enclosureFacts, ...this.animalFacts, ...this.weightFacts];
    const roomOf = new Map(this.enclosureFacts.map(({ fact: { body } }) => [body.enclosure, body.room]));
    const { since } = this.onRecord;
    const dated = <T extends Fact>(one: Gathered<T>, day: string): Gathered<T> => ({
      ...one,
      fact: { ...one.fact, day },
    });
    const standsFrom = (enclosure: string): string | undefined =>
      since?.enclosures.get(enclosure) ?? since?.rooms.get(roomOf.get(enclosure) ?? '');
    const tubs = this.enclosureFacts.map((one) =>
      dated(one, later(first, since?.rooms.get(one.fact.body.room))),
    );
    const animals = this.animalFacts
      .map((one) =>
        one.fact.day ? dated(one, later(one.fact.day, standsFrom(one.fact.body.enclosure))) : one,
      )
      .sort((a, b) => (a.fact.day ?? '9').localeCompare(b.fact.day ?? '9'));
    return [...this.roomFacts.map((one) => dated(one, first)), ...tubs, ...animals, ...this.weightFacts];
  }
}
