// An animal's weights and meals over time, from its history.
import { inForce, ofKind, type EntryOf } from './force';
import type { Entry } from '../contract/answers';

export type Weighed = EntryOf<'weighed'>;
export type Meal = EntryOf<'meal'>;

export interface Body {
  weights: Weighed[];
  meals: Meal[];
}

export function bodyOf(entries: readonly Entry[]): Body {
  const standing = inForce(entries);
  return { weights: ofKind(standing, 'weighed'), meals: ofKind(standing, 'meal') };
}

export interface Loss {
  grams: number;
  /** Part of the heaviest weight. */
  part: number;
  /** Day of the heaviest. */
  since: string;
}

/** What the last weighing is below the heaviest of those before it; null where it is not. */
export function lossOf(weights: readonly Weighed[]): Loss | null {
  const last = weights.at(-1);
  if (!last) return null;
  const heaviest = weights.reduce((most, one) => (one.fact.mass_g >= most.fact.mass_g ? one : most), last);
  const grams = heaviest.fact.mass_g - last.fact.mass_g;
  return grams > 0 ? { grams, part: grams / heaviest.fact.mass_g, since: heaviest.day } : null;
}

/** What it was offered last and is known of: prey to be offered again at a tap. */
export function lastPrey(meals: readonly Meal[]): Meal['fact'] | null {
  const named = meals.filter(({ fact }) => fact.prey !== null && !fact.treated_prey);
  return named.at(-1)?.fact ?? null;
}

export interface Scale {
  low: number;
  high: number;
  ticks: number[];
}

/** Round steps of 1, 2 or 5 that hold all values, at most five of them; never below zero. */
export function scaleOf(values: readonly number[]): Scale {
  const least = Math.min(...values);
  const most = Math.max(...values);
  const span = Math.max(most - least, most * 0.1, 1e-9);
  const rough = span / 3;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((one) => one * ten >= rough) ?? 10) * ten;
  const low = Math.max(0, Math.floor(least / step) * step);
  const high = Math.max(low + step, Math.ceil(most / step) * step);
  const count = Math.round((high - low) / step);
  return { low, high, ticks: Array.from({ length: count + 1 }, (_, index) => low + index * step) };
}
