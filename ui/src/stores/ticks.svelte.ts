import type { Fault } from '../api/answers';
import { faultOf, post } from '../api/client';
import { live } from './live.svelte';
import { shelve, unshelve, waiting, type Tick, type Waiting } from './queue';

const retryMs = 4000;

/** Sends ticks in the order they were made; keeps what could not be sent and tries again. */
class Ticks {
  waiting = $state.raw<Waiting[]>([]);
  /** Ticks the server refused, with its reason; they wait for the keeper to look. */
  refused = $state.raw<Map<string, Fault>>(new Map());
  private sending = false;

  open(): void {
    this.look();
    addEventListener('storage', () => this.look());
    addEventListener('online', () => void this.flush());
    live.onBack(() => void this.flush());
    setInterval(() => void this.flush(), retryMs);
    void this.flush();
  }

  add(tick: Tick): void {
    shelve(localStorage, tick, Date.now(), crypto.getRandomValues(new Uint32Array(1)).join());
    this.look();
    void this.flush();
  }

  /** The waiting tick of a task, if there is one. */
  of(key: string): Waiting | undefined {
    return this.waiting.find((tick) => tick.key === key);
  }

  drop(tick: Waiting): void {
    unshelve(localStorage, tick.id);
    this.refused = new Map([...this.refused].filter(([id]) => id !== tick.id));
    this.look();
  }

  async flush(): Promise<void> {
    if (this.sending) return;
    this.sending = true;
    try {
      for (const tick of waiting(localStorage)) if (!this.refused.has(tick.id)) await this.send(tick);
    } catch {
      // The server cannot be reached: what is left waits for the next try.
    } finally {
      this.sending = false;
      this.look();
    }
  }

  private async send(tick: Waiting): Promise<void> {
    const { key, day, reason } = tick;
    try {
      await (reason === undefined ? post('tick', { key, day }) : post('skip', { key, day, reason }));
      this.drop(tick);
    } catch (error) {
      const fault = faultOf(error);
      if (fault.kind === 'unreachable' || fault.kind === 'unpaired') throw error;
      this.refused = new Map([...this.refused, [tick.id, fault]]);
    }
  }

  private look(): void {
    this.waiting = waiting(localStorage);
  }
}

export const ticks = new Ticks();
