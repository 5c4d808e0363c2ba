// The stock and the tools at hand, as the keeper told them; and how the server is asked with them.
import { mlOf, readNumber } from '../format';

export const stockUnits = ['mg/mL', '% w/v', 'mg/L', 'g/L'] as const;
/** 1 % w/v is 1 g in 100 mL. */
const mgPerLOf: Record<(typeof stockUnits)[number], number> = {
  'mg/mL': 1000,
  '% w/v': 10_000,
  'mg/L': 1,
  'g/L': 1000,
};
export const volumeUnits = ['mL', 'L', 'US fl oz', 'US quart', 'imp fl oz', 'imp pint'] as const;
export const usualSyringes = [
  '1 mL/0.01 mL',
  '3 mL/0.1 mL',
  '5 mL/0.2 mL',
  '10 mL/0.5 mL',
  '20 mL/1 mL',
] as const;
/** "10 mL": the largest amount of a syringe, which is what people call it. */
export const sizeOf = (syringe: string): string => syringe.split('/')[0] ?? syringe;

export interface ToolAmount {
  number: number;
  unit: string;
  mlPerUnit: number;
}

/** "10 mL/0.5 mL": its largest amount (0) or its marks (1). */
export function amountOf(tool: string, part: 0 | 1): ToolAmount | null {
  const [, number = '', unit = ''] = /^([\d.,]+) (.+)$/.exec(tool.split('/')[part]?.trim() ?? '') ?? [];
  const [read, mlPerUnit] = [readNumber(number), mlOf[unit]];
  return read === null || mlPerUnit === undefined ? null : { number: read, unit, mlPerUnit };
}

/** The spoons of a measuring set, as they are stamped; a half and a quarter are spoons of their own. */
export const spoons = [
  '1 US tbsp',
  '1/2 US tbsp',
  '1 US tsp',
  '1/2 US tsp',
  '1/4 US tsp',
  '5 mL',
  '2.5 mL',
  '1.25 mL',
] as const;
export type Spoon = (typeof spoons)[number];

/** Spoons as this browser kept them, those of an earlier version too; what is none is left out. */
export function spoonsKept(kept: readonly string[]): Spoon[] {
  const earlier: Record<string, Spoon> = {
    us_spoons: '1 US tsp',
    us_tablespoons: '1 US tbsp',
    metric_spoons: '5 mL',
  };
  const now = kept.map((one) => earlier[one] ?? one);
  return spoons.filter((one) => now.includes(one));
}

/** What is in the bottle, by ingredient and form; empty until the keeper has said so. */
export const stockForms = ['plain', 'pour-on', 'paste', 'combination'] as const;
export type StockForm = (typeof stockForms)[number] | '';

/** A bottle of stock on record. */
export interface Stock {
  stock: string;
  strength_mg_per_l: number | null;
  expires: string | null;
}

export interface Bench {
  /** The bottle on record that is mixed from; empty: none of them. */
  from: string;
  /** Though bottles are on record, another is mixed from, whose strength is typed. */
  isOther: boolean;
  /** The keeper has said that the stock is as its label says. */
  stockRead: boolean;
  stock: string;
  stockIs: StockForm;
  stockUnit: (typeof stockUnits)[number];
  expires: string;
  /** "10 mL/0.5 mL": largest amount and marks. */
  syringes: string[];
  cups: string[];
  spoons: Spoon[];
  bottle: string;
  preserved: boolean;
  /** As typed: so many squirts of the bottle fill so many mL; empty until they were counted. */
  squirts: string;
  squirtsMl: string;
  /** "50 mL=18.90 EUR" */
  packages: string[];
}

export const usualBench: Bench = {
  from: '',
  isOther: false,
  stockRead: false,
  stock: '10',
  stockIs: '',
  stockUnit: 'mg/mL',
  expires: '',
  syringes: [...usualSyringes],
  cups: [],
  spoons: [],
  bottle: '',
  preserved: false,
  squirts: '',
  squirtsMl: '',
  packages: [],
};

interface Asked {
  from?: string;
  stock?: string;
  stock_is?: string;
  expires?: string;
  syringe?: string[];
  cup?: string[];
  spoon?: string[];
  bottle?: string;
  package?: string[];
}

function common(bench: Bench): Asked {
  const asked: Asked = {};
  if (bench.from) {
    asked.from = bench.from;
  } else {
    asked.stock = `${readNumber(bench.stock) ?? bench.stock.trim()} ${bench.stockUnit}`;
    if (bench.stockIs) asked.stock_is = bench.stockIs;
    if (bench.expires) asked.expires = bench.expires;
  }
  if (bench.syringes.length > 0) asked.syringe = bench.syringes;
  if (bench.cups.length > 0) asked.cup = bench.cups;
  if (bench.spoons.length > 0) asked.spoon = bench.spoons;
  if (bench.bottle.trim()) asked.bottle = bench.bottle.trim();
  if (bench.packages.length > 0) asked.package = bench.packages;
  return asked;
}

/** It is mixed from this bottle, whose strength and last day are on record. */
export function takeBottle(bench: Bench, one: Stock): void {
  bench.from = one.stock;
  bench.isOther = false;
  bench.stock = String((one.strength_mg_per_l ?? 0) / 1000);
  bench.stockUnit = 'mg/mL';
  bench.stockIs = 'plain';
  bench.expires = one.expires ?? '';
  bench.stockRead = true;
}

/** It is mixed from none of those on record: its label is read anew. */
export function takeOther(bench: Bench): void {
  bench.from = '';
  bench.isOther = true;
  bench.stockRead = false;
}

/** Which bottle is meant has been said, and it is there: it is never guessed. */
export const isBottleChosen = (bench: Bench, stocks: readonly Stock[]): boolean =>
  bench.from === '' ? stocks.length === 0 || bench.isOther : stocks.some((one) => one.stock === bench.from);

/** As it is put on record, mg/L; null where no number is typed. */
export function strengthTyped(bench: Bench): number | null {
  const number = readNumber(bench.stock);
  return number === null ? null : Number((number * mgPerLOf[bench.stockUnit]).toPrecision(12));
}

/** How strong the stock is has been said, by its bottle or in a number. */
export const isStrengthTold = (bench: Bench): boolean =>
  bench.from !== '' || readNumber(bench.stock) !== null;

/** "50 mL, 18.90 EUR": a size of package as it is shown. */
export const showPackage = (size: string): string => size.replace('=', ', ');

/** A number as the server takes it, in digits and a point: "1,5" is "1.5". */
export const withPoint = (number: string): string => number.trim().replace(',', '.');

const flagsOf = (bench: Bench): string[] => [
  ...(bench.preserved ? ['preserved'] : []),
  ...(bench.syringes.length === 0 ? ['no_syringes'] : []),
];

/** For a GET: everything is text. */
export function benchQuery(bench: Bench): Record<string, string | string[]> {
  return { ...common(bench), ...Object.fromEntries(flagsOf(bench).map((flag) => [flag, '1'])) };
}

/** For a POST: lists and yes or no. */
export function benchBody(bench: Bench): object {
  return { ...common(bench), ...Object.fromEntries(flagsOf(bench).map((flag) => [flag, true])) };
}
