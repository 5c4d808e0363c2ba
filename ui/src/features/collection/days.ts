// Days as people write them in tables.

export type Order = 'day' | 'month';
export const orders = ['day', 'month'] as const;

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const two = (value: number): string => String(value).padStart(2, '0');

/** The day as ISO 8601, or null where there is no such day. */
function dayOf(year: number, month: number, day: number): string | null {
  const full = year < 100 ? 2000 + year : year;
  const text = `${full}-${two(month)}-${two(day)}`;
  const at = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(at.getTime()) && at.toISOString().startsWith(text) ? text : null;
}

function named(text: string): string | null {
  const found =
    /^(\d{1,2})[ ./-]*([a-z]{3,9})\.?[ ,./-]*(\d{4}|\d{2})$/i.exec(text) ??
    /^([a-z]{3,9})\.?[ ./-]*(\d{1,2})(?:st|nd|rd|th)?[ ,./-]+(\d{4}|\d{2})$/i.exec(text);
  if (!found) return null;
  const [, a = '', b = '', year = ''] = found;
  const [name, day] = /^\d/.test(a) ? [b, a] : [a, b];
  const month = months.indexOf(name.slice(0, 3).toLowerCase());
  return month < 0 ? null : dayOf(Number(year), month + 1, Number(day));
}

/** What a text may mean if the day stands first, and if the month does. */
export function readings(text: string): Record<Order, string | null> {
  const tidy = text.trim().replace(/[ T]\d{1,2}:\d{2}(:\d{2})?.*$/, '');
  const iso = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/.exec(tidy);
  const plain = /^(\d{1,2})([-/.])\s*(\d{1,2})\2\s*(\d{4}|\d{2})$/.exec(tidy);
  if (plain) {
    const [a, b, year] = [Number(plain[1]), Number(plain[3]), Number(plain[4])];
    return { day: dayOf(year, b, a), month: dayOf(year, a, b) };
  }
  const one = iso ? dayOf(Number(iso[1]), Number(iso[3]), Number(iso[4])) : named(tidy);
  return { day: one, month: one };
}

/** The order in which days of a file are written: told by those that fit only one; "ask" if none tells. */
export function orderOf(texts: readonly string[]): Order | 'ask' | null {
  const read = texts.map(readings).filter(({ day, month }) => day !== month);
  const only = {
    day: read.some(({ month }) => month === null),
    month: read.some(({ day }) => day === null),
  };
  if (only.day !== only.month) return only.day ? 'day' : 'month';
  return read.some(({ day, month }) => day !== null && month !== null) ? 'ask' : null;
}

/** The day a text means; null if it means none, or may mean two and the order is not told. */
export function readDay(text: string, order: Order | null): string | null {
  const { day, month } = readings(text);
  if (day === month) return day;
  if (day === null || month === null) return day ?? month;
  return order === 'day' ? day : order === 'month' ? month : null;
}
