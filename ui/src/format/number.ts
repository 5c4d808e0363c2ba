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

/** Reads what somebody typed, with a point or a comma; null when it is not a plain number. */
export function readNumber(text: string): number | null {
  const tidy = text.trim().replace(',', '.');
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(tidy) ? Number(tidy) : null;
}

const grouped = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 0 });

/** Counts that may be large and are not exact: "3,400". Below ten one decimal. */
export function showCount(value: number): string {
  if (value > 0 && value < 0.05) return '< 0.1';
  return value < 10 ? showNumber(Number(value.toFixed(1)), 2) : grouped.format(Number(value.toPrecision(2)));
}
