// What somebody typed into a field, read in the unit it is meant in, or why it is not taken.
import { words } from '../words/en';
import { maybeTwo, readNumber, whyNot } from './number';
import { fromScale, massFrom, type Scale, type Units } from './units';

export interface Typed {
  value: number | null;
  /** Why it is not taken; null when it is, or nothing was typed. */
  why: string | null;
}

export const nothing: Typed = { value: null, why: null };
const t = words.typed;
const refused = (why: string): Typed => ({ value: null, why });

/** The number alone may be two; anything else is told as it was typed, with its unit. */
const reason = (number: string, text: string): string =>
  (maybeTwo(number) && whyNot(number)) || t.notNumber(text.trim());

const grams = new Map([
  ['g', 1],
  ['kg', 1000],
  ['lb', 453.59237],
  ['oz', 453.59237 / 16],
]);
const massName = /\s*(g|gr|grams?|kg|kilos?|kilograms?|lbs?|pounds?|oz|ounces?)\.?$/i;
const shortMass = (name: string): string => {
  const low = name.toLowerCase();
  if (/^k/.test(low)) return 'kg';
  if (/^(lb|pound)/.test(low)) return 'lb';
  return /^o/.test(low) ? 'oz' : 'g';
};

export interface Parts {
  number: string;
  unit: string | null;
}

/** "1,62 kg" as its number, as typed, and its unit. */
export function massParts(text: string): Parts {
  const name = massName.exec(text.trim());
  if (!name?.[1]) return { number: text.trim(), unit: null };
  return { number: text.trim().slice(0, name.index), unit: shortMass(name[1]) };
}

export const gramsIn = (unit: string): number => grams.get(unit) ?? 1;

const heaviest = 200_000;
export function checkedMass(mass: number, text: string): Typed {
  if (mass <= 0) return refused(t.notAboveZero(text.trim()));
  return mass > heaviest ? refused(t.tooHeavy(text.trim())) : { value: mass, why: null };
}

/** A weight in grams; without a unit of its own it is in that of the settings. */
export function typedMass(text: string, units: Units): Typed {
  if (text.trim() === '') return nothing;
  const { number, unit } = massParts(text);
  const value = readNumber(number);
  if (value === null) return refused(reason(number, text));
  return checkedMass(unit ? value * gramsIn(unit) : massFrom(value, units), text);
}

const within = (value: number, low: number, high: number, text: string): Typed =>
  value >= low && value <= high ? { value, why: null } : refused(t.notPossible(text.trim()));

/** A temperature in C; without C or F of its own it is in the scale of the settings. */
export function typedCelsius(text: string, scale: Scale): Typed {
  const tidy = text.trim();
  if (tidy === '') return nothing;
  const name = /\s*(?:°|deg(?:rees)?)?\s*([CF])?$/i.exec(tidy);
  const number = tidy.slice(0, name?.index);
  const value = readNumber(number);
  if (value === null) return refused(reason(number, tidy));
  return within(fromScale(value, (name?.[1]?.toUpperCase() as Scale | undefined) ?? scale), -10, 60, tidy);
}

/** Relative humidity, with or without its sign. */
export function typedPercent(text: string): Typed {
  const tidy = text.trim();
  if (tidy === '') return nothing;
  const number = tidy.replace(/\s*%$/, '');
  const value = readNumber(number);
  return value === null ? refused(reason(number, tidy)) : within(value, 0, 100, tidy);
}

/** How many: a whole number from none to `most`. */
export function typedCount(text: string, most: number): Typed {
  const value = readNumber(text);
  if (value === null) return { value, why: whyNot(text) };
  return Number.isInteger(value) && value >= 0 && value <= most
    ? { value, why: null }
    : refused(t.notCount(text.trim(), most));
}
