// What the mixing screens decide: what would help where nothing can be measured, and how a strength is judged.
import type { Answers, Fault } from '../api/answers';
import { usualSyringes } from '../stores/bench-words';

type Sheet = Answers['mix'];
type Comparison = Sheet['comparison'];

/** There is a way to measure the stock; without one nothing may be mixed, judged or put on record. */
export const isMeasured = (sheet: Pick<Sheet, 'measurement' | 'cannot_measure'>): boolean =>
  sheet.measurement !== null && !sheet.cannot_measure;

/** A strength is judged by the strongest it may be, not by what it is meant to be. */
export function judged(comparison: Comparison, high: number): Comparison & { perhaps: boolean } {
  const { limit_mg_per_l: limit, strongest_mg_per_l: strongest } = comparison;
  const tooStrong = comparison.standing !== 'above' && limit !== null && high > limit * (1 + 1e-9);
  if (!tooStrong) return { ...comparison, perhaps: false };
  return { ...comparison, standing: 'above', multiple: high / (strongest ?? limit), perhaps: true };
}

const amounts = [50, 100, 200, 250, 500, 1000, 2000, 5000, 10_000, 20_000];

export interface Help {
  /** The least of the usual amounts that can be measured well with the tools at hand, mL. */
  atLeast: number | null;
  /** A syringe that is not at hand and would do for the amount wanted. */
  syringe: string | null;
}

type Ask = (change: { batch?: string; syringe?: string[] }) => Promise<Sheet>;

async function firstThat<T>(
  candidates: readonly T[],
  works: (one: T) => Promise<boolean>,
): Promise<T | null> {
  for (const one of candidates) if (await works(one).catch(() => false)) return one;
  return null;
}

/** What to change so that it can be measured, tried out with the server. */
export async function helpFor(ask: Ask, totalMl: number, tools: readonly string[]): Promise<Help> {
  const isGood = (sheet: Sheet): boolean => isMeasured(sheet) && !sheet.measurement?.rough;
  const more = tools.length === 0 ? [] : amounts.filter((ml) => ml > totalMl * 1.001);
  const others = usualSyringes.filter((one) => !tools.includes(one));
  return {
    atLeast: await firstThat(more, async (ml) => isGood(await ask({ batch: `${ml} mL` }))),
    syringe: await firstThat(others, async (one) => isGood(await ask({ syringe: [...tools, one] }))),
  };
}

const command = /"[a-z][a-z-]*( [^"]*)?"/;

/** A fault without remedies that are meant for the command line. */
export function withoutCommands(fault: Fault | null): Fault | null {
  if (!fault) return null;
  const plain = (text: string): string => (command.test(text) ? '' : text);
  return { ...fault, remedy: plain(fault.remedy), limit: plain(fault.limit), message: fault.what };
}

/** A strength above everything published, which its keeper has not yet said to have read about. */
export const needsReading = (sheet: Sheet, acknowledged: number | null): boolean =>
  sheet.comparison.standing === 'above' &&
  (sheet.recipe.strength_mg_per_l ?? 0) > (acknowledged ?? 0) * (1 + 1e-9);
