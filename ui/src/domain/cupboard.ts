// A label as it is typed on the page, and how the server is asked about it.
import { readNumber } from '../format';
import { stockForms, volumeUnits, withPoint, type StockForm } from './bench';

/** As labels write them; the first says least. */
export const labelUnits = ['%', '% w/v', 'mg/mL', 'g/L', 'mg/L', 'mg/g', '% v/v'] as const;
export const labelForms: readonly StockForm[] = ['', ...stockForms];

export interface LabelLine {
  name: string;
  amount: string;
  unit: (typeof labelUnits)[number];
}
export interface Label {
  lines: LabelLine[];
  form: StockForm;
  pack: string;
  packUnit: (typeof volumeUnits)[number];
  price: string;
  currency: string;
}

export const emptyLine = (): LabelLine => ({ name: '', amount: '', unit: '%' });
export const emptyLabel = (): Label => ({
  lines: [emptyLine()],
  form: '',
  pack: '',
  packUnit: 'mL',
  price: '',
  currency: 'EUR',
});

/** "0,5" goes as "0.5"; what is no number goes as it is, for the server to refuse by name. */
const written = ({ name, amount, unit }: LabelLine): string =>
  amount.trim() === '' ? name.trim() : `${name.trim()} ${withPoint(amount)} ${unit}`;

/** Whether there is something to ask about, and nothing typed that is no number. */
export const isComplete = (label: Label): boolean =>
  label.lines.some(({ name }) => name.trim() !== '') &&
  label.lines.every(
    ({ name, amount }) => amount.trim() === '' || (name.trim() !== '' && readNumber(amount) !== null),
  ) &&
  [label.pack, label.price].every((text) => text.trim() === '' || readNumber(text) !== null);

/** The query for one label; the keys of the second begin with "or_". */
export function labelQuery(label: Label, before: '' | 'or_' = ''): Record<string, string | string[]> {
  const lines = label.lines.filter(({ name }) => name.trim() !== '').map(written);
  const all: Record<string, string | string[]> = { [`${before}ingredient`]: lines };
  if (label.form) all[`${before}is`] = label.form;
  if (label.pack.trim()) all[`${before}pack`] = `${withPoint(label.pack)} ${label.packUnit}`;
  if (label.price.trim())
    all[`${before}price`] = `${withPoint(label.price)} ${label.currency.trim().toUpperCase()}`;
  return all;
}
