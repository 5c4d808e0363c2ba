// Chances as the command line shows them: never rounded up to certainty, never down to none.

import { showNumber } from './number';

export interface Band {
  mean: number | null;
  p10: number | null;
  p90: number | null;
}

const unknown = 'unknown';
const floored = (value: number, digits: number): string => {
  const step = 10 ** digits;
  return (Math.floor(value * step) / step).toFixed(digits);
};

/** The number of a percentage, without its sign: "55", "99.3", "< 0.1", "> 99.99". */
function percent(chance: number): string {
  const value = chance * 100;
  if (value < 0.1) return '<\u00a00.1';
  if (value > 99.99) return '>\u00a099.99';
  if (value >= 99) return floored(value, 2);
  if (value >= 90) return floored(value, 1);
  return value < 10 ? value.toFixed(1) : value.toFixed(0);
}

const isChance = (chance: number | null): chance is number => chance !== null && chance >= 0 && chance <= 1;

export function showChance(chance: number | null): string {
  return isChance(chance) ? `${percent(chance)}\u00a0%` : unknown;
}

/** A level that is asked for, not estimated: "99 %", "99.9 %". */
export const showLevel = (level: number): string => `${showNumber(level * 100, 6)}\u00a0%`;

/** Only the range, which the program makes hold the mean: "21–84 %". */
export function showRange({ p10, p90 }: Band): string {
  return isChance(p10) && isChance(p90) ? `${percent(p10)}–${percent(p90)}\u00a0%` : unknown;
}

/** Mean with that range: "55 % (21–84)". */
export function showBand(band: Band | null): string {
  if (!band || !isChance(band.mean)) return unknown;
  const { p10, p90 } = band;
  if (!isChance(p10) || !isChance(p90)) return showChance(band.mean);
  const [low, high] = [percent(p10), percent(p90)];
  return `${percent(band.mean)}\u00a0% (${low === high ? low : `${low}–${high}`})`;
}
