// What the mixing screens decide: what would help where nothing can be measured, and how a strength is judged.
import type { Answers, CollectionAnswer } from '../contract/answers';
import type { System } from '../format';
import { usualSyringes, type volumeUnits } from './bench';

type Sheet = Answers['mix'];

/** There is a way to measure the stock; without one nothing may be mixed, judged or put on record. */
export const isMeasured = (sheet: Pick<Sheet, 'measurement' | 'cannot_measure'>): boolean =>
  sheet.measurement !== null && !sheet.cannot_measure;

/** A usual syringe that is not at hand and would do for the amount wanted, tried out with the server. */
export async function syringeFor(
  ask: (syringes: string[]) => Promise<Sheet>,
  atHand: readonly string[],
): Promise<string | null> {
  for (const one of usualSyringes.filter((usual) => !atHand.includes(usual))) {
    const sheet = await ask([...atHand, one]).catch(() => null);
    if (sheet && isMeasured(sheet) && !sheet.measurement?.rough) return one;
  }
  return null;
}

type Accepted = Pick<CollectionAnswer, 'acknowledged_mg_per_l'> & {
  animals: Pick<CollectionAnswer['animals'][number], 'acknowledged'>[];
};

/** A strength meant to be above everything published, which its keeper has accepted for no animal and no place yet. */
export function needsReading(sheet: Sheet, collection: Accepted | null): boolean {
  if (sheet.comparison.standing !== 'above' || sheet.comparison.perhaps) return false;
  const accepted = [
    collection?.acknowledged_mg_per_l ?? 0,
    ...(collection?.animals ?? []).flatMap(({ acknowledged }) =>
      acknowledged.map((one) => one.strength_mg_per_l ?? 0),
    ),
  ];
  return (sheet.recipe.strength_mg_per_l ?? 0) > Math.max(...accepted) * (1 + 1e-9);
}

type BenchUnit = 'mL' | 'L' | 'US fl oz' | 'imp fl oz';

/** Whose measures a unit of the bench belongs to. */
export const systemOfUnit: Record<(typeof volumeUnits)[number], System> = {
  ...{ mL: 'metric', L: 'metric', 'US fl oz': 'us', 'US quart': 'us' },
  ...{ 'imp fl oz': 'imperial', 'imp pint': 'imperial' },
};

/** An amount in a unit of the keeper, a little more rather than less: what the bench is filled with. */
export function amountFor(ml: number, system: System): { amount: string; unit: BenchUnit } {
  const up = (value: number, step: number): string =>
    String(Number((Math.ceil(value / step - 1e-6) * step).toFixed(2)));
  if (system === 'us') return { amount: up(ml / 29.5735295625, 0.5), unit: 'US fl oz' };
  if (system === 'imperial') return { amount: up(ml / 28.4130625, 0.5), unit: 'imp fl oz' };
  return ml >= 1000 ? { amount: up(ml / 1000, 0.05), unit: 'L' } : { amount: up(ml, 5), unit: 'mL' };
}

/** The bench with amount and strength filled in. */
export function benchLink(ml: number, strength: number | null, system: System): string {
  const query = new URLSearchParams({
    ...amountFor(ml, system),
    ...(strength === null ? {} : { target: String(strength) }),
  });
  return `#/mix/make?${query.toString()}`;
}

export interface DayOfMixing {
  day: string;
  /** With spare, as the worklist of the day says it. */
  ml: number;
  strength: number | null;
}

/** What is mixed on each day: the needs of the days with the spare that the whole list has. */
export function daysOfMixing(
  list: Pick<Answers['shopping'], 'needs' | 'spray_ml' | 'batches'>,
): DayOfMixing[] {
  const bare = list.needs.reduce((sum, { volume_ml }) => sum + volume_ml, 0);
  const spare = bare > 0 ? list.spray_ml / bare : 1;
  return list.needs.map(({ day, volume_ml }) => {
    const batch = list.batches.findLast((one) => one.made_on <= day);
    return { day, ml: volume_ml * spare, strength: batch?.recipe.strength_mg_per_l ?? null };
  });
}

type Batch = CollectionAnswer['batches'][number];

/** The batch on record that is in date, of the strength wanted, and was made large enough; the newest. */
export function batchFor(
  batches: readonly Batch[],
  wanted: { amountMl: number | null; strength: number | null; agent: string | null; today: string },
): Batch | undefined {
  const { amountMl, strength, agent, today } = wanted;
  if (strength === null) return undefined;
  return batches.findLast(
    (one) =>
      !one.discarded_on &&
      one.discard_by >= today &&
      one.agent === agent &&
      Math.abs((one.strength_mg_per_l ?? 0) - strength) <= strength * 0.03 &&
      one.total_ml >= (amountMl ?? 0),
  );
}
