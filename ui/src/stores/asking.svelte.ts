// Facts that ask before they go on record, and what the keeper says to that.
import type { Asked, Fault, Orders } from '../contract/answers';
import { faultOf, post } from '../api/client';
import type { Fact } from '../domain/facts';

interface Question {
  asks: Asked[];
  facts: Fact[];
  /** `reason`: why all the same, where somebody says. */
  answer: (yes: boolean, reason?: string) => void;
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
      const reason = await this.question(asks, facts);
      if (reason === null) throw new Declined();
      const acknowledged = asks.map((ask) => ask.key);
      return post('record', { facts, acknowledged, ...(reason ? { reason } : {}) });
    }
  }

  /** The reason, which may be empty; null: no. */
  private question(asks: Asked[], facts: Fact[]): Promise<string | null> {
    this.now?.answer(false);
    return new Promise((resolve) => {
      this.now = {
        asks,
        facts,
        answer: (yes, reason = '') => {
          this.now = null;
          resolve(yes ? reason.trim() : null);
        },
      };
    });
  }
}

export const asking = new Asking();
