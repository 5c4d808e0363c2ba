// Enclosures being put where they stand: what is held, where it is to go, and what is not yet known of it.
import { tick } from 'svelte';
import { post } from '../../api/client';
import { known } from '../../stores/collection.svelte';
import { say } from '../../stores/say.svelte';
import { Sending, takingBack } from '../../stores/sending.svelte';
import { words } from '../../words/en';
import { moves, type Rack, type Stand } from './layout';

interface Held {
  enclosure: string;
  room: string;
  to: Stand | null;
}

export const spotWords = (at: Stand): string => words.home.spot(at.rack, at.level, at.position);

class Arranging {
  on = $state(false);
  held = $state.raw<Held | null>(null);
  readonly sending = new Sending();
  /** Racks by room that have a name and nothing in them yet. */
  named = $state.raw<Readonly<Record<string, string[]>>>({});
  /** Where enclosures were put, until the collection tells the same. */
  private put = $state.raw<ReadonlyMap<string, Stand>>(new Map());

  readonly standOf = (enclosure: string): Stand | null =>
    this.put.get(enclosure) ?? known.enclosure(enclosure)?.stand ?? null;

  addRack(room: string, rack: string): void {
    this.named = { ...this.named, [room]: [...(this.named[room] ?? []), rack] };
  }

  take(enclosure: string, room: string): void {
    this.held = { enclosure, room, to: null };
  }

  aim(to: Stand | null): void {
    if (this.held) this.held = { ...this.held, to };
  }

  letGo(): void {
    this.held = null;
  }

  /** What the collection tells now is as it is on record. */
  heard(): void {
    this.put = new Map();
  }

  /** Puts what is held at a place, on record at once; in one step to take back. */
  async drop<T extends { enclosure: string }>(to: Stand, racks: readonly Rack<T>[]): Promise<void> {
    const { enclosure } = this.held ?? {};
    this.held = null;
    if (!enclosure || this.sending.busy) return;
    const rack = racks.find((one) => one.rack === to.rack);
    const facts = moves(enclosure, to, this.standOf, rack);
    this.put = new Map(
      facts.flatMap(({ kind, body }) => {
        if (kind !== 'enclosure-stands') return [];
        const { enclosure: who, ...stand } = body as Stand & { enclosure: string };
        return [[who, stand]];
      }),
    );
    await tick();
    document.querySelector<HTMLElement>(`[data-tub="${CSS.escape(enclosure)}"]`)?.focus();
    await this.sending.run(async () => {
      const { ids } = await post('record', { facts });
      say.done(words.home.put(known.enclosureName(enclosure), spotWords(to)), takingBack(ids), ids.length);
    });
    if (this.sending.fault) this.heard();
  }
}

export const arranging = new Arranging();
