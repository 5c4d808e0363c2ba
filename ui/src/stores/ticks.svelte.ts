import type { Fault } from '../api/answers';
import { faultOf, get, post } from '../api/client';
import type { Fact } from '../api/facts';
import { entriesOfTask } from '../screens/today';
import { words } from '../words/en';
import { live } from './live.svelte';
import { isReport, shelve, unshelve, waiting, type Tick, type Waiting } from './queue';

const retryMs = 4000;

/** What became of something that was sent at once. */
export type Outcome = { entries: number[] } | { waits: Waiting } | { fault: Fault };

/** Sends ticks and reports in the order they were made; keeps what could not be sent and tries again. */
class Ticks {
  waiting = $state.raw<Waiting[]>([]);
  /** Ticks the server refused, with its reason; they wait for the keeper to look. */
  refused = $state.raw<Map<string, Fault>>(new Map());
  private sending = false;
  private turn: Promise<void> = Promise.resolve();
  private readonly written = new Map<string, number[]>();

  open(): void {
    this.look();
    addEventListener('storage', () => this.look());
    addEventListener('online', () => void this.flush());
    live.onBack(() => void this.flush());
    setInterval(() => this.sending || void this.flush(), retryMs);
    void this.flush();
  }

  add(tick: Tick): Waiting {
    const one = shelve(localStorage, tick, Date.now(), crypto.getRandomValues(new Uint32Array(1)).join());
    this.look();
    void this.flush();
    return one;
  }

  /** Puts facts on record, or keeps them until the server can be reached. What it refuses is not kept. */
  async report(at: { key: string; day: string; label: string }, facts: Fact[]): Promise<Outcome> {
    const dated = facts.map((fact) => ({ day: at.day, ...fact }));
    const one = this.add({ ...at, facts: dated });
    await this.flush();
    const fault = this.refused.get(one.id);
    if (fault) {
      this.drop(one);
      return { fault };
    }
    const entries = this.written.get(one.id);
    return entries ? { entries } : { waits: one };
  }

  /** Takes a tick back, whether it still waits or is on record. */
  async takeBack(key: string): Promise<void> {
    await this.flush();
    const waits = this.of(key);
    if (waits) return this.drop(waits);
    const { entries } = await get('journal');
    const found = entriesOfTask(entries, key);
    if (found.length > 0) await post('withdraw', { entries: found, reason: words.today.undoReason });
  }

  /** Takes a report back, whether it still waits or is on record. */
  async takeReportBack(outcome: Outcome): Promise<void> {
    await this.flush();
    const waits = 'waits' in outcome ? outcome.waits : null;
    const entries = 'entries' in outcome ? outcome.entries : this.written.get(waits?.id ?? '');
    if (entries) await post('withdraw', { entries, reason: words.today.undoReason });
    else if (waits) this.drop(waits);
  }

  /** The waiting tick of a task, if there is one. */
  of(key: string): Waiting | undefined {
    return this.waiting.find((tick) => tick.key === key && !isReport(tick));
  }

  drop(tick: Waiting): void {
    unshelve(localStorage, tick.id);
    this.refused = new Map([...this.refused].filter(([id]) => id !== tick.id));
    this.look();
  }

  /** Resolves once all that could be sent is sent. */
  flush(): Promise<void> {
    this.turn = this.turn.then(() => this.sendAll());
    return this.turn;
  }

  private async sendAll(): Promise<void> {
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
    try {
      await this.hand(tick);
      this.drop(tick);
    } catch (error) {
      const fault = faultOf(error);
      if (fault.kind === 'unreachable' || fault.kind === 'unpaired') throw error;
      this.refused = new Map([...this.refused, [tick.id, fault]]);
    }
  }

  private async hand({ id, key, day, reason, facts }: Waiting): Promise<void> {
    if (facts) this.written.set(id, (await post('record', { facts })).ids);
    else await (reason === undefined ? post('tick', { key, day }) : post('skip', { key, day, reason }));
  }

  private look(): void {
    this.waiting = waiting(localStorage);
  }
}

export const ticks = new Ticks();
