import type { Fault } from '../contract/answers';
import { faultOf, post } from '../api/client';

/** Something on its way to the server: busy meanwhile, and what kept it from being taken. */
export class Sending {
  busy = $state(false);
  fault = $state.raw<Fault | null>(null);

  /** Tells what `work` throws as the fault. */
  async run(work: () => Promise<void>): Promise<void> {
    this.busy = true;
    this.fault = null;
    try {
      await work();
    } catch (error) {
      this.fault = faultOf(error);
    } finally {
      this.busy = false;
    }
  }
}

/** The way back of what went on record as these entries. */
export const takingBack = (entries: number[]) => async (): Promise<void> => {
  await post('withdraw', { entries });
};
