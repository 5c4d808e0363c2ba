import { describe, expect, it } from 'vitest';
import {
  addDays,
  areaFrom,
  daysBetween,
  fromScale,
  massFrom,
  readNumber,
  holding,
  showBand,
  showChance,
  showCount,
  showDay,
  showEnds,
  showLevel,
  showMass,
  showMoney,
  showNumber,
  showRange,
  showTemperature,
  showVolume,
  showWhen,
  withDays,
  toScale,
} from '../src/format';

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const metric = { system: 'metric', scale: 'C' } as const;
const us = { system: 'us', scale: 'F' } as const;
const imperial = { system: 'imperial', scale: 'C' } as const;

describe('chances', () => {
  // The words of the command line: units::show_chance.
  it.each([
    [0.00002, '< 0.1 %'],
    [0.0563, '5.6 %'],
    [0.5527, '55 %'],
    [0.9349, '93.4 %'],
    [0.99876, '99.87 %'],
    [0.99995, '> 99.99 %'],
  ])('%f is %s', (chance, text) => expect(plain(showChance(chance))).toBe(text));

  it('never tells certainty, nor impossibility', () => {
    expect(plain(showChance(1))).toBe('> 99.99 %');
    expect(plain(showChance(0))).toBe('< 0.1 %');
  });

  it('does not round up to a better chance', () => {
    expect(plain(showChance(0.99899))).toBe('99.89 %');
    expect(plain(showChance(0.99999 / 1.0001))).toBe('99.98 %');
  });

  it('holds its mean in its range', () => {
    const odd = { mean: 0.981, p10: 0.9958, p90: 0.99995 };
    expect(holding(odd)).toEqual({ mean: 0.981, p10: 0.981, p90: 0.99995 });
    expect(plain(showBand(odd))).toBe('98.1 % (98.1–> 99.99)');
    expect(plain(showRange({ mean: 0.5, p10: 0.1, p90: 0.4 }))).toBe('10–50 %');
    expect(holding({ mean: null, p10: 0.1, p90: 0.4 })).toEqual({ mean: null, p10: 0.1, p90: 0.4 });
  });

  it('shows the mean with its range', () => {
    expect(plain(showBand({ mean: 0.5527, p10: 0.207, p90: 0.835 }))).toBe('55 % (21–84)');
    expect(plain(showBand({ mean: 0.0002, p10: 0, p90: 0.0004 }))).toBe('< 0.1 % (< 0.1)');
    expect(showBand({ mean: null, p10: null, p90: null })).toBe('unknown');
    expect(showBand(null)).toBe('unknown');
  });

  it('shows a level that is asked for as it was asked', () => {
    expect(plain(showLevel(0.99))).toBe('99 %');
    expect(plain(showLevel(0.999))).toBe('99.9 %');
  });
});

describe('numbers', () => {
  it.each([
    [1984.409, '1980'],
    [0.0459, '0.0459'],
    [10, '10'],
    [0, '0'],
    [12.5001, '12.5'],
  ])('%f is %s', (value, text) => expect(showNumber(value)).toBe(text));

  it('reads a point or a comma, and nothing else', () => {
    expect(readNumber(' 2,5 ')).toBe(2.5);
    expect(readNumber('.5')).toBe(0.5);
    expect(readNumber('1e3')).toBeNull();
    expect(readNumber('10 mL')).toBeNull();
    expect(readNumber('')).toBeNull();
  });

  it('rounds counts of mites to what is known of them', () => {
    expect(showCount(382.27)).toBe('380');
    expect(showCount(3421)).toBe('3,400');
    expect(showCount(0.012)).toBe('< 0.1');
    expect(showCount(0)).toBe('0');
  });
});

describe('units', () => {
  // 1 lb = 453.59237 g, 1 US fl oz = 29.5735295625 mL, 1 imp fl oz = 28.4130625 mL, exact by definition.
  it('shows what the keeper uses', () => {
    expect(showMass(1620, metric)).toBe('1.62 kg');
    expect(showMass(453.59237 * 2, us)).toBe('2 lb');
    expect(showMass(100, us)).toBe('3.53 oz');
    expect(showVolume(1500, metric)).toBe('1.5 L');
    expect(showVolume(946.352946, us)).toBe('32 US fl oz');
    expect(showVolume(568.26125, imperial)).toBe('20 imp fl oz');
    expect(showVolume(5, us)).toBe('5 mL');
    expect(showTemperature(30, us)).toBe('86 °F');
  });

  it('goes back to the units of the contract', () => {
    expect(massFrom(16, us)).toBeCloseTo(453.59237, 9);
    expect(areaFrom(1, us)).toBeCloseTo(6.4516, 9);
    for (const celsius of [-5, 0, 21.5, 37])
      expect(fromScale(toScale(celsius, 'F'), 'F')).toBeCloseTo(celsius, 9);
  });

  it('shows money with the digits of its currency', () => {
    expect(showMoney({ minor_units: 1890, currency: 'EUR' })).toBe('€18.90');
    expect(showMoney({ minor_units: 1890, currency: 'JPY' })).toBe('JP¥1,890');
  });
});

describe('days', () => {
  it('are never moved by a time zone or a change of clocks', () => {
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2);
    expect(addDays('2026-10-24', 2)).toBe('2026-10-26');
    expect(addDays('2028-02-28', 1)).toBe('2028-02-29');
  });

  it('are written out in sentences of the server', () => {
    expect(withDays('gravid (noted 2026-11-01), 2026-12')).toBe('gravid (noted 1 Nov 2026), 2026-12');
  });

  it('are told beside today', () => {
    expect(showDay('2026-11-25')).toBe('Wed 25 Nov');
    expect(showWhen('2026-11-25', '2026-11-25')).toBe('today');
    expect(showWhen('2026-11-26', '2026-11-25')).toBe('tomorrow');
    expect(showWhen('2026-11-20', '2026-11-25')).toBe('5 days ago');
  });
});

describe('the ends of a range', () => {
  it.each([
    [9.95, 10.05, ['9.95', '10.05']],
    [9.9995, 10.0005, ['9.9995', '10.0005']],
    [8, 13, ['8', '13']],
    [208.1, 208.9, ['208.1', '208.9']],
    [10, 10, ['10', '10']],
  ])('%f and %f are told apart', (low, high, text) => expect(showEnds(low, high)).toEqual(text));
});
