import type { Fault, JobAnswer, JobKind, JobResults } from '../contract/answers';
import { faultOf, send } from '../api/client';
import { live } from './live.svelte';

const pollMs = 1500;
/** Whoever writes several things one after another is waited for. */
const calmMs = 700;
const remembered = new Map<string, unknown>();
const isOver = (answer: JobAnswer): boolean => !['waiting', 'running'].includes(answer.state);

/** A long computation on the server: begun, followed, cancelled. The last result stays until the next is there. */
export class Job<K extends JobKind> {
  id = $state<string | null>(null);
  running = $state(false);
  progress = $state(0);
  result = $state.raw<JobResults[K] | null>(null);
  /** What is known while it runs. */
  soFar = $state.raw<JobAnswer['so_far']>(null);
  fault = $state.raw<Fault | null>(null);
  cancelled = $state(false);
  private latest = 0;

  constructor(readonly kind: K) {}

  async start(options: object = {}): Promise<void> {
    const turn = (this.latest += 1);
    this.giveUp();
    Object.assign(this, { running: true, progress: 0, soFar: null, cancelled: false, fault: null });
    try {
      let answer = (await send('POST', 'jobs', { kind: this.kind, options })) as JobAnswer;
      while (turn === this.latest) {
        // Somebody else gave it up: it is still wanted here.
        if (answer.state === 'cancelled') return await this.start(options);
        this.take(answer);
        if (answer.state === 'done') remembered.set(this.nameOf(options), this.result);
        if (isOver(answer)) return;
        await this.nextNews(answer.job);
        if (turn !== this.latest) return;
        answer = (await send('GET', `jobs/${answer.job}`)) as JobAnswer;
      }
    } catch (error) {
      if (turn === this.latest) this.fail(faultOf(error), this.nameOf(options));
    }
  }

  async cancel(): Promise<void> {
    this.latest += 1;
    Object.assign(this, { running: false, soFar: null, cancelled: true });
    if (this.id) await send('DELETE', `jobs/${this.id}`).catch(() => undefined);
  }

  /** An answer that is no longer wanted must not keep the next one waiting. */
  private giveUp(): void {
    if (this.running && this.id) void send('DELETE', `jobs/${this.id}`).catch(() => undefined);
    this.id = null;
  }

  /** Stops following and frees the server for the next question. A search for plans goes on: it is come back to. */
  leave(): void {
    this.latest += 1;
    if (this.kind !== 'plan') this.giveUp();
  }

  private nameOf(options: object): string {
    return `${this.kind} ${JSON.stringify(options)}`;
  }

  /** Without a connection the last answer to the same question is shown, as the notice above every screen says. */
  private fail(fault: Fault, name: string): void {
    const last = fault.kind === 'unreachable' ? remembered.get(name) : undefined;
    if (last) this.result = last as JobResults[K];
    this.fault = last ? null : fault;
    this.soFar = null;
    this.running = false;
  }

  private take(answer: JobAnswer): void {
    this.id = answer.job;
    this.progress = answer.progress;
    this.running = !isOver(answer);
    this.soFar = answer.so_far;
    if (answer.state === 'done') this.result = answer.result as unknown as JobResults[K];
    if (answer.state === 'failed') this.fault = answer.error;
  }

  /** The end of the job or a while, whichever comes first; progress is taken from the events on the way. */
  private nextNews(job: string): Promise<void> {
    return new Promise((resolve) => {
      const done = () => {
        clearTimeout(timer);
        forget();
        resolve();
      };
      const timer = setTimeout(done, pollMs);
      const forget = live.onJob((event) => {
        if (event.job !== job) return;
        this.progress = event.progress;
        if (!['waiting', 'running'].includes(event.state)) done();
      });
    });
  }
}

/**
 * A job begun with the screen and again whenever the journal grows or its options change; null: not now. Options that say the
 * same, made anew, are the same question.
 */
export function jobFor<K extends JobKind>(kind: K, options: () => object | null = () => ({})): Job<K> {
  const job = new Job(kind);
  const wanted = $derived(JSON.stringify(options()));
  let calm = 0;
  $effect(() => {
    void live.turn;
    const asked = JSON.parse(wanted) as object | null;
    if (!asked) return undefined;
    const timer = setTimeout(() => void job.start(asked), calm);
    calm = calmMs;
    return () => clearTimeout(timer);
  });
  $effect(() => () => job.leave());
  return job;
}
