import { spoonsKept, usualBench, type Bench } from '../domain/bench';
import { keep, recall } from './kept';

const key = 'mitefall.bench';
const kept = recall<Bench>(key, usualBench);
export const bench = $state<Bench>({ ...kept, spoons: spoonsKept(kept.spoons) });

/** Remembers the bench as it is changed. To be called by the screen that changes it. */
export function rememberBench(): void {
  $effect(() => keep(key, $state.snapshot(bench)));
}
