// What was told so far on a first night, kept as long as the tab: half of it survives a reload.
import type { Seen, SeenWhere } from '../../contract/answers';
import type { StateAnswer, StateAnswers } from '../../domain/first-night';
import { keep, recall } from '../../stores/kept';

interface Told {
  many: string;
  kind: string;
  alike: boolean;
  /** By animal. */
  kinds: string[];
  weights: string[];
  at: { animal: number; where: SeenWhere } | null;
  count: Seen | null;
  states: StateAnswers;
  /** Kinds of other pets; null: not answered. */
  pets: string[] | null;
  petsUnknown: boolean;
}

const key = 'mitefall.first-night';
const open = (): StateAnswer => ({ said: null, who: [] });
const blank = (): Told => ({
  ...{ many: '', kind: '', alike: true, kinds: [], weights: [], at: null, count: null },
  states: { shed: open(), gravid: open(), newborn: open() },
  ...{ pets: null, petsUnknown: false },
});

class Draft {
  told = $state<Told>(recall(key, blank(), 'tab'));

  keep(): void {
    keep(key, $state.snapshot(this.told), 'tab');
  }

  clear(): void {
    this.told = blank();
    this.keep();
  }
}

export const draft = new Draft();
