import type { Answers, Fault } from '../contract/answers';
import { asQuery, faultOf, get, lastAnswer, type Query } from '../api/client';
import { noFinger } from './finger';
import { live } from './live.svelte';

/** One question to the server, asked again whenever the journal grows or the question changes. */
export class Answer<K extends keyof Answers> {
  data = $state.raw<Answers[K] | null>(null);
  fault = $state.raw<Fault | null>(null);
  /** The question that `data` answers. */
  private path = $state('');
  private latest = 0;

  constructor(private readonly what: K) {}

  /** Whether what is shown answers this very question, and not the one before it. */
  isAbout(query: Query): boolean {
    return this.data !== null && this.path === this.what + asQuery(query);
  }

  async ask(query: Query): Promise<void> {
    const path = this.what + asQuery(query);
    const turn = (this.latest += 1);
    const before = lastAnswer(this.what, query);
    if (before !== undefined) this.show(path, before);
    try {
      const data = await get(this.what, query);
      await noFinger();
      if (turn !== this.latest) return;
      this.show(path, data);
    } catch (error) {
      await noFinger();
      if (turn !== this.latest) return;
      this.fail(path, faultOf(error));
    }
  }

  private show(path: string, data: Answers[K]): void {
    this.path = path;
    this.data = data;
    this.fault = null;
  }

  /** Without a connection the last answer stays, if it is one to this question; nothing else outlives a fault. */
  private fail(path: string, fault: Fault): void {
    const stays = fault.kind === 'unreachable' && this.data !== null && this.path === path;
    this.fault = stays ? null : fault;
    if (!stays) this.data = null;
  }
}

/** To be called while a component is made. A query of null asks nothing. */
export function answerTo<K extends keyof Answers>(
  what: K,
  query: () => Query | null = () => ({}),
): Answer<K> {
  const answer = new Answer(what);
  $effect(() => {
    void live.turn;
    const asked = query();
    if (asked) void answer.ask(asked);
  });
  return answer;
}
