// Facts that ask before they go on record, and what the keeper says to that.
import type { Asked, Fault, Orders } from '../api/answers';
import { faultOf, post } from '../api/client';
import type { Fact } from '../api/facts';

interface Question {
  asks: Asked[];
  facts: Fact[];
  answer: (yes: boolean) => void;
}

/** Said no to; nothing went on record. */
export class Declined extends Error {}

export const mustBeAsked = (fault: Fault): boolean =>
  fault.kind === 'conflict' && fault.where === 'acknowledged';

class Asking {
  now = $state.raw<Question | null>(null);

  /** Puts the facts on record; asks first where the server wants it. Throws Declined where the answer is no. */
  async record(facts: Fact[]): Promise<Orders['record']> {
    try {
      return await post('record', { facts });
    } catch (error) {
      if (!mustBeAsked(faultOf(error))) throw error;
      const { asks = [] } = await post('record', { facts, dry_run: true });
      // A reason is part of the fact, so that it is asked for where the fact is made.
      if (asks.some((ask) => ask.needs_reason)) throw error;
      if (!(await this.question(asks, facts))) throw new Declined();
      return post('record', { facts, acknowledged: asks.map((ask) => ask.key) });
    }
  }

  private question(asks: Asked[], facts: Fact[]): Promise<boolean> {
    this.now?.answer(false);
    return new Promise((resolve) => {
      this.now = {
        asks,
        facts,
        answer: (yes) => {
          this.now = null;
          resolve(yes);
        },
      };
    });
  }
}

export const asking = new Asking();
