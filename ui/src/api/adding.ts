// From what is typed into a list or read from a table to the facts of new rooms, enclosures and animals.
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
}

/** Things of one sort: finds one by what it is called, or makes a new name on record for it. */
class Shelf {
  private readonly byName = new Map<string, string>();
  private readonly ids: Set<string>;

  constructor(onRecord: ReadonlyMap<string, string>) {
    this.ids = new Set(onRecord.keys());
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

/** Gathers facts in an order in which each finds what it refers to. */
export class Adder {
  private readonly rooms: Shelf;
  private readonly enclosures: Shelf;
  private readonly animals: Shelf;
  private readonly roomFacts: Fact[] = [];
  private readonly enclosureFacts: Fact[] = [];
  private readonly animalFacts: Fact[] = [];
  private readonly weightFacts: Fact[] = [];

  constructor(
    onRecord: OnRecord,
    private readonly roomKind: RoomKind,
    private readonly tubKind: TubKind,
  ) {
    this.rooms = new Shelf(onRecord.rooms);
    this.enclosures = new Shelf(onRecord.enclosures);
    this.animals = new Shelf(onRecord.animals);
  }

  /** The room of that name, added if it is new. */
  room(name: string): string {
    const found = this.rooms.find(name);
    if (found) return found;
    const room = this.rooms.make(name);
    this.roomFacts.push(fact('room-added', { ...this.roomKind, room, name: name.trim() }));
    return room;
  }

  /** The enclosure of that name, added to `room` if it is new; `kind` overrides the usual one. */
  enclosure(name: string, room: string, kind: Partial<TubKind> = {}): string {
    const found = this.enclosures.find(name);
    if (found) return found;
    const enclosure = this.enclosures.make(name);
    const body = { ...this.tubKind, ...kind, enclosure, name: name.trim(), room };
    this.enclosureFacts.push(fact('enclosure-added', body));
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
    this.animalFacts.push(fact('animal-arrived', { animal, name: name.trim(), ...rest }, day));
    return animal;
  }

  weight(animal: string, mass_g: number): void {
    this.weightFacts.push(fact('weighed', { animal, mass_g }));
  }

  get counts(): { rooms: number; tubs: number; animals: number; weights: number } {
    return {
      rooms: this.roomFacts.length,
      tubs: this.enclosureFacts.length,
      animals: this.animalFacts.length,
      weights: this.weightFacts.length,
    };
  }

  /** A thing stands in its room at least as early as the first animal that came into it. */
  get facts(): Fact[] {
    const days = this.animalFacts.map((one) => one.day).filter((day) => day !== undefined);
    const first = days.sort()[0];
    const early = <T extends Fact>(one: T): T => (first ? { ...one, day: first } : one);
    const animals = [...this.animalFacts].sort((a, b) => (a.day ?? '9').localeCompare(b.day ?? '9'));
    return [...this.roomFacts.map(early), ...this.enclosureFacts.map(early), ...animals, ...this.weightFacts];
  }
}

export interface Line {
  name: string;
  kind: string;
  tub: string;
  weight: string;
}

export const emptyLine = (): Line => ({ name: '', kind: '', tub: '', weight: '' });

/** Lines that name an animal; an empty kind means the one above. */
export function filledLines(lines: readonly Line[]): Line[] {
  let kind = '';
  return lines
    .map((line) => {
      kind = line.kind.trim() || kind;
      return { ...line, kind };
    })
    .filter((line) => line.name.trim() !== '');
}

/** "Tub 1", "Tub 2", ...: the next that is free. */
export function nextTub(prefix: string, isTaken: (name: string) => boolean): string {
  let number = 1;
  while (isTaken(`${prefix} ${number}`)) number += 1;
  return `${prefix} ${number}`;
}
