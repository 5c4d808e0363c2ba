import type { Fault, Task, Ticked } from '../contract/answers';
import { faultOf, post, Refusal } from '../api/client';
import type { Fact } from '../domain/facts';
import { newKey } from '../api/keys';
import { showMoment } from '../format';
import { words } from '../words/en';
import { noFinger } from './finger';
import { live } from './live.svelte';
import { isReport, note, shelve, standing, unshelve, waiting, type Tick, type Waiting } from './queue';
import { settings } from './settings.svelte';
import { say } from './say.svelte';

const retryMs = 4000;
/** What is sent is not told of before this: what is told moves the list, and most of it is taken at once. */
const patienceMs = 1500;

/** What became of something that was sent at once. */
export type Outcome = { sent: boolean; one: Waiting } | { fault: Fault };

/** Sends ticks and reports in the order they were made; keeps what could not be sent and tries again. */
class Ticks {
  waiting = $state.raw<Waiting[]>([]);
  /** Ticks the server refused, with its reason; they wait for the keeper to look. */
  refused = $state.raw<Map<string, Fault>>(new Map());
  /** What the server answered last of each task, until a list shows it. */
  private answered = $state.raw<Map<string, Ticked>>(new Map());
  /** What waits could not be sent, or takes long. */
  stuck = $state(false);
  private sending = false;
  private last = 0;
  private turn: Promise<void> = Promise.resolve();

  open(): void {
    this.look();
    addEventListener('storage', () => this.look());
    addEventListener('online', () => void this.flush());
    live.onBack(() => void this.flush());
    setInterval(() => this.sending || void this.flush(), retryMs);
    void this.flush();
  }

  add(tick: Tick): Waiting {
    const by = settings.initials.trim();
    // Several of one tap are kept in their order: each has a moment of its own.
    this.last = Math.max(Date.now(), this.last + 1);
    const one = shelve(localStorage, by ? { ...tick, by } : tick, this.last, newKey());
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
    return { sent: standing(localStorage, one.id) === null, one };
  }

  /** Takes back what was made here, whether it still waits, is on its way or is on record. */
  async undo(made: Waiting): Promise<string | void> {
    const one = standing(localStorage, made.id);
    if (one && (!one.tried || this.refused.has(one.id))) return this.drop(one);
    note(localStorage, made, { tried: true, back: true });
    this.look();
    await this.flush();
    const fault = this.refused.get(made.id);
    if (fault) {
      this.drop(made);
      throw new Refusal(fault);
    }
    const answer = isReport(made) ? undefined : this.answered.get(made.key);
    if (answer && answer.state !== 'open') return words.today.staysDone(answer.state);
  }

  /** Takes back what its reader saw of a task: the entry that made it done or skipped, whoever made that. */
  async takeBack(task: Task): Promise<string | void> {
    const waits = this.of(task.key);
    if (waits) return this.undo(waits);
    const entry = task.entry ?? this.answered.get(task.key)?.entries.at(-1);
    const answer = await post('take-back', { key: task.key, entry });
    this.know(answer);
    if (answer.state !== 'open') return words.today.staysDone(answer.state);
  }

  /** The waiting tick of a task, if there is one. */
  of(key: string): Waiting | undefined {
    return this.waiting.find((tick) => tick.key === key && !isReport(tick) && !tick.back);
  }

  /** What a task is, with what was ticked here and a list made from `entry` does not show yet. */
  stateOf(task: Task, entry: number): Task['state'] {
    const waits = this.of(task.key);
    if (waits && !this.refused.has(waits.id)) return waits.reason === undefined ? 'done' : 'skipped';
    const answer = this.answered.get(task.key);
    return answer && answer.entry > entry ? answer.state : task.state;
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
    const slow = setTimeout(() => void this.tell(true), patienceMs);
    try {
      for (const { id } of waiting(localStorage)) {
        // As it is now: it may have been taken back while others were sent.
        const tick = standing(localStorage, id);
        if (tick && !this.refused.has(id)) await this.send(tick);
      }
      void this.tell(false);
    } catch {
      // The server cannot be reached: what is left waits for the next try.
      void this.tell(true);
    } finally {
      clearTimeout(slow);
      this.sending = false;
      this.look();
    }
  }

  private async tell(stuck: boolean): Promise<void> {
    await noFinger();
    this.stuck = stuck;
  }

  private async send(tick: Waiting): Promise<void> {
    try {
      note(localStorage, tick, { tried: true });
      await this.hand(tick);
      // Taken back while it was on its way: it stays for that.
      if (standing(localStorage, tick.id)?.back === tick.back) this.drop(tick);
    } catch (error) {
      const fault = faultOf(error);
      if (fault.kind === 'unreachable' || fault.kind === 'unpaired') throw error;
      this.refused = new Map([...this.refused, [tick.id, fault]]);
    }
  }

  private async hand(tick: Waiting): Promise<void> {
    const { id, key, day, seen, reason, found, where, facts, by } = tick;
    if (tick.back) return this.handBack(tick);
    if (facts) return void (await post('record', { facts }, id));
    const answer = await (reason === undefined
      ? post('tick', { key, day, seen, found, where, by }, id)
      : post('skip', { key, day, seen, reason, by }, id));
    this.know(answer);
    if (answer.already)
      say.done(words.today.already(tick.label ?? key, answer.state, showMoment(answer.recorded_at ?? '')));
  }

  private async handBack({ id, key, facts }: Waiting): Promise<void> {
    const request = `${id}b`;
    if (facts) await post('withdraw', { of: id }, request);
    else this.know(await post('take-back', { key, of: id }, request));
  }

  private know(answer: Ticked): void {
    this.answered = new Map([...this.answered, [answer.key, answer]]);
  }

  private look(): void {
    this.waiting = waiting(localStorage);
  }
}

export const ticks = new Ticks();
