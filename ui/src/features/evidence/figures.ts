import { showNumber, showTemperature, type Units } from '../../format';
import { words } from '../../words/en';

const t = words.evidence;
type Unit = keyof typeof t.units;
const isUnit = (unit: string): unit is Unit => unit in t.units;

/** A number with its unit, as people say it: "1 %", "60 days", "38 °C". */
export function showFigure(value: number, unit: string, units: Units): string {
  if (unit === 'share') return `${showNumber(value * 100)}\u00a0%`;
  if (unit === 'C') return showTemperature(value, units);
  return isUnit(unit) ? t.units[unit](showNumber(value)) : `${showNumber(value)} ${unit}`;
}
