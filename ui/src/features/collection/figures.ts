// Weights in a column: what a comma or a point means there, told by the cells that can mean only one thing.
import { askWhich, checkedMass, gramsIn, massParts, readNumber, type Typed } from '../../format';
import { words } from '../../words/en';

export type Mark = 'decimal' | 'thousands';
export interface Marks {
  comma: Mark | null;
  point: Mark | null;
}

function isOnlyDecimal(text: string, mark: string): boolean {
  const [lead = '', rest, ...more] = text.split(mark);
  if (rest === undefined || more.length > 0 || /\D/.test(rest) || readNumber(text) === null) return false;
  const isGrouped = /\D/.test(lead);
  return isGrouped || rest.length !== 3 || lead.startsWith('0') || lead.length > 3 || lead === '';
}

function isOnlyThousands(text: string, mark: string): boolean {
  const [lead = '', ...groups] = text.split(mark);
  const isGrouped = /^\d{1,3}$/.test(lead) && groups.every((group) => /^\d{3}([.,]\d*)?$/.test(group));
  return isGrouped && readNumber(text) !== null && (groups.length > 1 || /[.,]/.test(groups[0] ?? ''));
}

function meaning(numbers: readonly string[], mark: string): Mark | null {
  const thousands = numbers.some((text) => isOnlyThousands(text, mark));
  const decimal = numbers.some((text) => isOnlyDecimal(text, mark));
  if (thousands === decimal) return null;
  return thousands ? 'thousands' : 'decimal';
}

export function marksOf(texts: readonly string[]): Marks {
  const numbers = texts.map((text) => massParts(text).number);
  return { comma: meaning(numbers, ','), point: meaning(numbers, '.') };
}

const oneMark = /^[1-9]\d{0,2}([.,])\d{3}$/;

/** A number in a column whose marks mean this; null where it may still be two. */
export function readMarked(number: string, marks: Marks): number | null {
  const mark = oneMark.exec(number)?.[1];
  if (!mark) return readNumber(number);
  const told = mark === ',' ? marks.comma : marks.point;
  if (told) return Number(number.replace(mark, told === 'decimal' ? '.' : ''));
  // A point is a decimal point, unless commas are that in this column.
  return mark === '.' && marks.comma !== 'decimal' ? Number(number) : null;
}

/** The unit a heading names: "Weight (kg)". */
export const unitOf = (heading: string): string => {
  const word = /\b(kg|kilos?|kilograms?|lbs?|pounds?|oz|ounces?)\b/i.exec(heading)?.[1];
  return (word && massParts(`1 ${word}`).unit) || 'g';
};

/** A weight in grams from a cell; without a unit of its own it is in that of the heading. */
export function cellMass(text: string, marks: Marks, usual: string): Typed {
  const { number, unit } = massParts(text);
  const value = readMarked(number, marks);
  if (value === null)
    return { value, why: oneMark.test(number) ? askWhich(number) : words.typed.notNumber(text.trim()) };
  return checkedMass(value * gramsIn(unit ?? usual), text);
}
