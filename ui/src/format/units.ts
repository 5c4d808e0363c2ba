// The contract speaks mL, g, mg/L and C; the keeper reads and types the units of the settings.
import { showEnds, showNumber } from './number';

export type System = 'metric' | 'us' | 'imperial';
export type Scale = 'C' | 'F';
export interface Units {
  system: System;
  scale: Scale;
}

const mlPerUsOunce = 29.5735295625;
const mlPerImperialOunce = 28.4130625;
/** What one of a unit is, mL: those a tool is bought with. */
export const mlOf: Readonly<Record<string, number>> = {
  mL: 1,
  L: 1000,
  'US fl oz': mlPerUsOunce,
  'imp fl oz': mlPerImperialOunce,
};
const gramsPerPound = 453.59237;
const gramsPerOunce = gramsPerPound / 16;
const cm2PerSquareInch = 6.4516;

export function showVolume(ml: number, { system }: Units): string {
  if (system === 'us' && ml >= mlPerUsOunce) return `${showNumber(ml / mlPerUsOunce)} US fl oz`;
  if (system === 'imperial' && ml >= mlPerImperialOunce)
    return `${showNumber(ml / mlPerImperialOunce)} imp fl oz`;
  return ml >= 1000 ? `${showNumber(ml / 1000)} L` : `${showNumber(ml)} mL`;
}

export function showMass(grams: number, { system }: Units): string {
  if (system === 'metric') return grams >= 1000 ? `${showNumber(grams / 1000)} kg` : `${showNumber(grams)} g`;
  return grams >= gramsPerPound
    ? `${showNumber(grams / gramsPerPound)} lb`
    : `${showNumber(grams / gramsPerOunce)} oz`;
}

export function toScale(celsius: number, scale: Scale): number {
  return scale === 'C' ? celsius : celsius * 1.8 + 32;
}

export function fromScale(value: number, scale: Scale): number {
  return scale === 'C' ? value : (value - 32) / 1.8;
}

export function showTemperature(celsius: number, { scale }: Units): string {
  return `${showNumber(toScale(celsius, scale))} °${scale}`;
}

export function showStrength(mgPerL: number | null): string {
  return mgPerL === null ? 'unknown' : `${showNumber(mgPerL)} mg/L`;
}

export function showStrengths(low: number, high: number): [string, string] {
  const [from, to] = showEnds(low, high);
  return [`${from} mg/L`, `${to} mg/L`];
}

/** The small unit weights are typed in. */
export const massUnit = ({ system }: Units): string => (system === 'metric' ? 'g' : 'oz');

/** Grams in it. */
export const perMassUnit = ({ system }: Units): number => (system === 'metric' ? 1 : gramsPerOunce);

export function massFrom(value: number, units: Units): number {
  return value * perMassUnit(units);
}

/** The unit floors of enclosures are typed in. */
export const areaUnit = ({ system }: Units): string => (system === 'metric' ? 'cm²' : 'sq in');

export function areaFrom(value: number, { system }: Units): number {
  return system === 'metric' ? value : value * cm2PerSquareInch;
}

export function toArea(cm2: number, { system }: Units): number {
  return system === 'metric' ? cm2 : cm2 / cm2PerSquareInch;
}

export function showMoney(money: { minor_units: number; currency: string }): string {
  const format = new Intl.NumberFormat('en-GB', { style: 'currency', currency: money.currency });
  const digits = format.resolvedOptions().maximumFractionDigits ?? 2;
  return format.format(money.minor_units / 10 ** digits);
}
