import { words } from '../words/en';
import { inWords } from './in-words';

/** `digits` significant figures, no exponent, no trailing zeros. */
export function showNumber(value: number, digits = 3): string {
  if (!Number.isFinite(value)) return 'unknown';
  if (value === 0) return '0';
  const decimals = digits - 1 - Math.floor(Math.log10(Math.abs(value)));
  if (decimals > 0) return String(Number(value.toFixed(Math.min(decimals, 20))));
  const step = 10 ** -decimals;
  return String(Math.round(value / step) * step);
}

/** The ends of a range, each to within a tenth of its width (at least three figures, at most six). */
export function showEnds(low: number, high: number): [string, string] {
  const near = (digits: number) => (value: number) =>
    Math.abs(Number(showNumber(value, digits)) - value) <= (high - low) / 10;
  const digits = [3, 4, 5].find((count) => [low, high].every(near(count))) ?? 6;
  return [showNumber(low, digits), showNumber(high, digits)];
}

const marks = "[ \\u00a0\\u2009\\u202f'’]";
const shapes = {
  plain: /^[+-]?(\d+\.?\d*|\.\d+)$/,
  decimalComma: /^[+-]?(\d+,\d*|,\d+)$/,
  spaced: new RegExp(`^[+-]?\\d{1,3}(${marks}\\d{3})+([.,]\\d*)?$`),
  commas: /^[+-]?\d{1,3}(,\d{3})+\.\d*$|^[+-]?\d{1,3}(,\d{3}){2,}$/,
  points: /^[+-]?\d{1,3}(\.\d{3})+,\d*$|^[+-]?\d{1,3}(\.\d{3}){2,}$/,
};
const twoNumbers = /^[+-]?[1-9]\d{0,2},\d{3}$/;
const allMarks = new RegExp(marks, 'g');

/** Whether a comma in it may be a decimal comma or a mark of thousands: "1,620". */
export const maybeTwo = (text: string): boolean => twoNumbers.test(text.trim());

/** Reads what somebody typed; null when it is not a number, or may be two (see `whyNot`). */
export function readNumber(text: string): number | null {
  const tidy = text.trim();
  if (shapes.plain.test(tidy)) return Number(tidy);
  if (shapes.spaced.test(tidy)) return Number(tidy.replace(allMarks, '').replace(',', '.'));
  if (shapes.commas.test(tidy)) return Number(tidy.replaceAll(',', ''));
  if (shapes.points.test(tidy)) return Number(tidy.replaceAll('.', '').replace(',', '.'));
  return shapes.decimalComma.test(tidy) && !maybeTwo(tidy) ? Number(tidy.replace(',', '.')) : null;
}

/** Which of two numbers "1,620" or "1.620" is. */
export function askWhich(text: string): string {
  const [large, small] = [text.replace(/[.,]/, ''), text.replace(',', '.')];
  return words.typed.maybeTwo(text, inWords(Math.abs(Number(large))), large, String(Number(small)));
}

/** Why what was typed is not taken as a number; null when it is, or nothing was typed. */
export function whyNot(text: string): string | null {
  const tidy = text.trim();
  if (tidy === '' || readNumber(tidy) !== null) return null;
  return maybeTwo(tidy) ? askWhich(tidy) : words.typed.notNumber(tidy);
}

const grouped = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 0 });

/** Counts that may be large and are not exact: "3,400". Below ten one decimal. */
export function showCount(value: number): string {
  if (value > 0 && value < 0.05) return '< 0.1';
  return value < 10 ? showNumber(Number(value.toFixed(1)), 2) : grouped.format(Number(value.toPrecision(2)));
}
