// How full a tool is for one measure, and where its marks are: from the measure of the answer and the tools of the bench.
import type { Answers } from '../../contract/answers';
import { amountOf, sizeOf, type Bench } from '../../domain/bench';

export type Measure = NonNullable<Answers['mix']['measurement']>['measures'][number];

export interface Scale {
  shape: 'syringe' | 'cup';
  /** Largest amount and marks, in the unit that is printed on it. */
  full: number;
  mark: number;
  unit: string;
  mlPerUnit: number;
}

export interface Mark {
  value: number;
  /** 0 where it is empty, 1 where it is full. */
  at: number;
  long: boolean;
  /** It has its number. */
  named: boolean;
}

/** The tool of a measure among those of the bench, by its name; null where two go by the same name, or none. */
export function scaleOf(measure: Measure, bench: Pick<Bench, 'syringes' | 'cups'>): Scale | null {
  const all = [
    ...bench.syringes.map((tool) => ({ tool, shape: 'syringe' as const })),
    ...bench.cups.map((tool) => ({ tool, shape: 'cup' as const })),
  ].filter(({ tool, shape }) => `${sizeOf(tool)} ${shape}` === measure.tool);
  const [found] = all;
  if (!found || all.length > 1) return null;
  const [full, mark] = [amountOf(found.tool, 0), amountOf(found.tool, 1)];
  if (!full || !mark || full.unit !== mark.unit) return null;
  return {
    shape: found.shape,
    full: full.number,
    mark: mark.number,
    unit: full.unit,
    mlPerUnit: full.mlPerUnit,
  };
}

/** How far it is filled, 0 to 1; null where the amount does not go into it: then nothing is drawn. */
export function filledTo(measure: Measure, scale: Scale): number | null {
  const share = measure.amount_ml / (scale.full * scale.mlPerUnit);
  return share > 0 && share <= 1 + 1e-9 ? Math.min(share, 1) : null;
}

/** A spoon beside the whole one of its set: which it is, and how wide its bowl is where it has the same shape. */
export function spoonOf(measure: Measure): { size: 'whole' | 'half' | 'quarter'; scale: number } | null {
  const size = ({ 1: 'whole', 0.5: 'half', 0.25: 'quarter' } as const)[measure.spoon_part ?? 0];
  return measure.spoon && size ? { size, scale: Math.cbrt(measure.spoon_part ?? 1) } : null;
}

/** One of 1, 2, 5 and their tens. */
const round = (value: number): number => {
  const ten = 10 ** Math.floor(Math.log10(value) + 1e-9);
  return [1, 2, 5, 10].map((one) => one * ten).find((one) => one >= value * (1 - 1e-9)) ?? 10 * ten;
};
const isMultiple = (value: number, of: number): boolean =>
  Math.abs(value / of - Math.round(value / of)) < 1e-6;

/** The marks as they are printed; of more than a hundred only every so many. Some six have their number. */
export function marksOf(scale: Scale): Mark[] {
  const most = 100;
  const count = Math.round(scale.full / scale.mark);
  const every = Math.ceil(count / most);
  const named = Math.max(round(scale.full / 6), scale.mark * every);
  return Array.from({ length: Math.floor(count / every) + 1 }, (_, index) => {
    const value = index * every * scale.mark;
    const isNamed = isMultiple(value, named);
    return { value, at: value / scale.full, named: isNamed, long: isNamed || isMultiple(value, named / 2) };
  });
}
