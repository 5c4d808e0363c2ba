// Days are ISO 8601 dates without a time of day; they are never moved by a time zone.

const msPerDay = 86_400_000;
const at = (day: string): Date => new Date(`${day}T00:00:00Z`);

const short = new Intl.DateTimeFormat('en-GB', {
  weekday: 'short',
  day: 'numeric',
  month: 'short',
  timeZone: 'UTC',
});
const long = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});

/** "Wed 25 Nov" */
export const showDay = (day: string): string => short.format(at(day)).replace(',', '');

const shortest = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' });

/** "25 Nov" */
export const showShortDay = (day: string): string => shortest.format(at(day));

/** "25 Nov 2026" */
export const showLongDay = (day: string): string => long.format(at(day));

const moment = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  hour: '2-digit',
  minute: '2-digit',
});

/** An instant by the clock of this device: "25 Nov, 21:04" */
export const showMoment = (instant: string): string => moment.format(new Date(instant));

/** A sentence of the server with its days told as people tell them. */
export const tellDays = (text: string): string =>
  text.replace(/\b\d{4}-\d{2}-\d{2}\b/g, (day) => showLongDay(day).replaceAll(' ', '\u00a0'));

/** Days from `from` to `to`; negative when `to` is earlier. */
export const daysBetween = (from: string, to: string): number =>
  Math.round((at(to).getTime() - at(from).getTime()) / msPerDay);

export const addDays = (day: string, days: number): string =>
  new Date(at(day).getTime() + days * msPerDay).toISOString().slice(0, 10);

export const unixSeconds = (day: string): number => at(day).getTime() / 1000;

export const dayOfUnix = (seconds: number): string => new Date(seconds * 1000).toISOString().slice(0, 10);

/** "today", "tomorrow", "in 5 days", "yesterday", "5 days ago" */
export function showWhen(day: string, today: string): string {
  const days = daysBetween(today, day);
  if (days === 0) return 'today';
  if (days === 1) return 'tomorrow';
  if (days === -1) return 'yesterday';
  return days > 0 ? `in ${days} days` : `${-days} days ago`;
}
