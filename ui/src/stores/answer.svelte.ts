import type { Answers, Fault } from '../api/answers';
import { asQuery, faultOf, get, type Query } from '../api/client';
import { live } from './live.svelte';

const remembered = new Map<string, unknown>();

/** One question to the server, asked again whenever the journal grows or the question changes. */
export class Answer<K extends keyof Answers> {
  data = $state.raw<Answers[K] | null>(null);
  fault = $state.raw<Fault | null>(null);
  private latest = 0;

  constructor(private readonly what: K) {}

  async ask(query: Query): Promise<void> {
    const path = this.what + asQuery(query);
    const turn = (this.latest += 1);
    if (remembered.has(path)) this.data = remembered.get(path) as Answers[K];
    try {
      const data = await get(this.what, query);
      remembered.set(path, data);
      if (turn !== this.latest) return;
      this.data = data;
      this.fault = null;
    } catch (error) {
      if (turn !== this.latest) return;
      this.fault = faultOf(error);
      if (this.fault.kind !== 'unreachable') {
        this.data = null;
        remembered.delete(path);
      }
    }
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
