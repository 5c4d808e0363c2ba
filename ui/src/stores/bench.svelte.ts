import { usualBench, type Bench } from '../domain/bench';
import { keep, recall } from './kept';

const key = 'mitefall.bench';
export const bench = $state<Bench>(recall<Bench>(key, usualBench));

/** Remembers the bench as it is changed. To be called by the screen that changes it. */
export function rememberBench(): void {
  $effect(() => keep(key, $state.snapshot(bench)));
}
