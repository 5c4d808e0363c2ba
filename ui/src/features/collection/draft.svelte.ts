// The list of animals being typed: kept until it is added or cleared, also when another screen is opened.
import type { Here } from '../../domain/since';
import { emptyLine, withUnit, type Line } from './lines';
import type { Units } from '../../format';
import { keep, recall } from '../../stores/kept';
import { Kinds } from '../../kit/tub-kinds.svelte';
import { settings } from '../../stores/settings.svelte';

interface Kept {
  room: string | null;
  roomName: string;
  prefix: string;
  here: Here;
  since: string;
  /** null: as proposed. */
  quarantine: boolean | null;
  empties: string;
  lines: Line[];
  units: Units;
  climate: object;
}

const key = 'mitefall.add';
const blank = (): Kept => ({
  room: null,
  roomName: 'Snake room',
  prefix: 'Tub',
  here: 'long',
  since: '',
  quarantine: null,
  empties: '',
  lines: Array.from({ length: 10 }, emptyLine),
  units: { system: settings.system, scale: settings.scale },
  climate: {},
});

class Draft {
  typed = $state<Kept>(blank());
  kinds = $state.raw(new Kinds(settings.scale));

  constructor() {
    this.take(recall(key, blank(), 'tab'));
  }

  /** To be called when the list is shown: the units may have been changed meanwhile. */
  open(): void {
    this.take({ ...$state.snapshot(this.typed), climate: this.kinds.typed });
  }

  keep(): void {
    keep(key, { ...$state.snapshot(this.typed), climate: this.kinds.typed }, 'tab');
  }

  clear(): void {
    this.restore(blank());
  }

  restore(kept: Kept): void {
    this.take(kept);
    this.keep();
  }

  private take(kept: Kept): void {
    const units = { system: settings.system, scale: settings.scale };
    const lines = kept.lines.map((line) => withUnit(line, kept.units, units));
    const climate = kept.units.scale === units.scale ? kept.climate : {};
    this.kinds = new Kinds(units.scale, climate);
    this.typed = { ...kept, lines, units };
  }
}

export const draft = new Draft();
