// The collection and the names of everything in it, shared by all screens.
import type { Animal, CollectionAnswer, Enclosure, Room } from '../contract/answers';
import { isolated } from '../format';
import { groupBy, sorted } from '../domain/tables';
import { Answer } from './answer.svelte';
import { live } from './live.svelte';

function inOrder(data: CollectionAnswer): CollectionAnswer {
  return {
    ...data,
    rooms: sorted(data.rooms, (room) => room.name || room.room, false),
    enclosures: sorted(data.enclosures, (tub) => tub.name || tub.enclosure, false),
    animals: sorted(data.animals, (animal) => animal.name || animal.animal, false),
  };
}

class Known {
  private readonly answer = new Answer('collection');
  /** As people sort: "Tub 2" before "Tub 10". */
  readonly data = $derived(this.answer.data && inOrder(this.answer.data));
  private readonly animals = $derived(new Map(this.data?.animals.map((animal) => [animal.animal, animal])));
  private readonly enclosures = $derived(new Map(this.data?.enclosures.map((tub) => [tub.enclosure, tub])));
  private readonly inside = $derived(groupBy(this.data?.animals ?? [], (animal) => animal.enclosure));
  private readonly rooms = $derived(new Map(this.data?.rooms.map((room) => [room.room, room])));

  get fault() {
    return this.answer.fault;
  }

  /** Asks at once and after every new entry. Called once, from the shell. */
  open(): void {
    $effect(() => {
      void live.turn;
      void this.answer.ask({});
    });
  }

  animal(id: string | null | undefined): Animal | undefined {
    return this.animals.get(id ?? '');
  }

  enclosure(id: string | null | undefined): Enclosure | undefined {
    return this.enclosures.get(id ?? '');
  }

  room(id: string | null | undefined): Room | undefined {
    return this.rooms.get(id ?? '');
  }

  /** What the keeper calls it; the name on record where nothing else is known. */
  animalName(id: string | null | undefined): string {
    return isolated(this.animal(id)?.name || (id ?? ''));
  }

  enclosureName(id: string | null | undefined): string {
    return isolated(this.enclosure(id)?.name || (id ?? ''));
  }

  roomName(id: string | null | undefined): string {
    return isolated(this.room(id)?.name || (id ?? ''));
  }

  /** The three above, for what tells an entry. */
  readonly names = {
    animal: (id: string): string => this.animalName(id),
    enclosure: (id: string): string => this.enclosureName(id),
    room: (id: string): string => this.roomName(id),
  };

  animalsIn(enclosure: string): Animal[] {
    return this.inside.get(enclosure) ?? [];
  }
}

export const known = new Known();
