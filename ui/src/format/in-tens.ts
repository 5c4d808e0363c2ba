// A chance as people say it: so many in ten. Never rounded up, as the numbers are not.
import { showNumber } from './number';

/** From this chance on: out of so many. */
const finer = [
  { from: 0.9999, of: 10_000 },
  { from: 0.999, of: 1000 },
  { from: 0.99, of: 100 },
  { from: 0.95, of: 20 },
  { from: 0.1, of: 10 },
] as const;

/** Floored in whole parts; a hair is forgiven, so that 0.7 is seven tenths and not six. */
const parts = (chance: number, of: number): number => Math.floor(chance * of + 1e-9);

/** "about 7 in 10", "about 99 in 100", "less than 1 in 10"; `null`: not known. */
export function showInTen(chance: number | null): string | null {
  if (chance === null || chance < 0 || chance > 1) return null;
  if (chance < 0.001) return 'next to none';
  const scale = finer.find(({ from }) => chance >= from);
  if (!scale) return chance < 0.01 ? 'less than 1 in 100' : 'less than 1 in 10';
  const most = scale.of - 1;
  const number = Math.min(parts(chance, scale.of), most);
  const more = chance > 0.9999 ? 'more than' : 'about';
  return `${more} ${showNumber(number, 6)} in ${showNumber(scale.of, 6)}`;
}
