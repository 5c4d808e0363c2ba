import { describe, expect, it } from 'vitest';
import { imperial, metric, plain, us } from '../../test/units';
import {
  addDays,
  areaFrom,
  daysBetween,
  fromScale,
  massFrom,
  maybeTwo,
  readNumber,
  showBand,
  showChance,
  showCount,
  showDay,
  showShortDay,
  showEnds,
  showInTen,
  showLevel,
  showMass,
  showMoney,
  showNumber,
  showTemperature,
  showVolume,
  showWhen,
  tellDays,
  toScale,
  typedCelsius,
  typedCount,
  typedMass,
  typedPercent,
  whyNot,
} from '.';
import { inWords } from './in-words';

describe('chances in tens', () => {
  // Floored by hand: 69 of 100 are six whole tenths.
  it.each([
    [0, 'next to none'],
    [0.005, 'less than 1 in 100'],
    [0.05, 'less than 1 in 10'],
    [0.69, 'about 6 in 10'],
    [0.7, 'about 7 in 10'],
    [0.949, 'about 9 in 10'],
    [0.95, 'about 19 in 20'],
    [0.9899, 'about 19 in 20'],
    [0.99, 'about 99 in 100'],
    [0.9995, 'about 999 in 1000'],
    [1, 'more than 9999 in 10000'],
  ])('%f is %s', (chance, text) => expect(showInTen(chance)).toBe(text));
  it('are not told where they are not known', () => {
    expect([showInTen(null), showInTen(1.2)]).toEqual([null, null]);
  });
});

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

  it.each([
    ['1620', 1620],
    ['1.620', 1.62],
    ['1.620,5', 1620.5],
    ['1,620.5', 1620.5],
    ['1 620', 1620],
    ['1\u00a0620,5', 1620.5],
    ["1'620", 1620],
    ['1,000,000', 1_000_000],
    ['1.000.000', 1_000_000],
    ['1,62', 1.62],
    ['0,500', 0.5],
    ['1234,567', 1234.567],
    ['-2,5', -2.5],
  ])('reads %s as %d', (text, value) => {
    expect(readNumber(text)).toBe(value);
    expect(whyNot(text)).toBeNull();
  });

  it.each(['1,620', '10,000', '-1,000', ' 999,999 '])('asks which number %s is', (text) => {
    expect(readNumber(text)).toBeNull();
    expect(maybeTwo(text)).toBe(true);
  });

  it('asks in plain words', () => {
    expect(whyNot('1,620')).toBe(
      'Is 1,620 one thousand six hundred and twenty, or 1.62? Write 1620 or 1.62.',
    );
    expect(whyNot('10,000')).toBe('Is 10,000 ten thousand, or 10? Write 10000 or 10.');
  });

  it.each(['abc', '1 62', '1,2,3', '1.2.3', '12 34,5', '1,620,5', '--1'])('does not read %s', (text) => {
    expect(readNumber(text)).toBeNull();
    expect(whyNot(text)).toContain('is not a number');
  });

  it('finds nothing wrong where nothing was typed', () => expect(whyNot('  ')).toBeNull());

  it('spells numbers out', () => {
    expect(inWords(1005)).toBe('one thousand and five');
    expect(inWords(999_999)).toBe('nine hundred and ninety-nine thousand nine hundred and ninety-nine');
    expect(inWords(20_000)).toBe('twenty thousand');
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
  it('are told in short', () => {
    expect(showShortDay('2026-11-25')).toBe('25 Nov');
  });

  it('are never moved by a time zone or a change of clocks', () => {
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2);
    expect(addDays('2026-10-24', 2)).toBe('2026-10-26');
    expect(addDays('2028-02-28', 1)).toBe('2028-02-29');
  });

  it('are written out in sentences of the server', () => {
    expect(plain(tellDays('gravid (noted 2026-11-01), 2026-12'))).toBe('gravid (noted 1 Nov 2026), 2026-12');
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

describe('sentences of the server', () => {
  it('tell days as people do', () => {
    expect(plain(tellDays('moved on 2026-11-15; then on 2026-11-19'))).toBe(
      'moved on 15 Nov 2026; then on 19 Nov 2026',
    );
  });
});

describe('what is typed with its unit', () => {
  it.each([
    ['1620 g', 1620],
    ['1,62 kg', 1620],
    ['1620', 1620],
    ['2 lb', 907.18474],
    ['16 oz', 453.59237],
    ['1.5 Kilos', 1500],
  ])('weighs %s', (text, grams) => expect(typedMass(text, metric).value).toBeCloseTo(grams, 6));

  it('takes a bare weight in the unit of the settings', () => {
    expect(typedMass('16', us).value).toBeCloseTo(453.59237, 6);
  });

  it('tells why a weight is not taken', () => {
    expect(typedMass('abc', metric).why).toContain('“abc” is not a number');
    expect(typedMass('12 stone', metric).why).toContain('“12 stone” is not a number');
    expect(typedMass('-5', metric).why).toContain('more than nothing');
    expect(typedMass('0', metric).why).toContain('more than nothing');
    expect(typedMass('500 kg', metric).why).toContain('more than any snake');
    expect(typedMass('1,620', metric).why).toContain('Write 1620 or 1.62');
    expect(typedMass(' ', metric)).toEqual({ value: null, why: null });
  });

  it('reads temperatures in either scale', () => {
    expect(typedCelsius('29 C', 'F').value).toBe(29);
    expect(typedCelsius('86 °F', 'C').value).toBeCloseTo(30, 9);
    expect(typedCelsius('86', 'F').value).toBeCloseTo(30, 9);
    expect(typedCelsius('warm', 'C').why).toContain('“warm” is not a number');
    expect(typedCelsius('86', 'C').why).toContain('cannot be');
  });

  it('reads shares and counts', () => {
    expect(typedPercent('55 %').value).toBe(55);
    expect(typedPercent('155').why).toContain('cannot be');
    expect(typedCount('12', 500).value).toBe(12);
    expect(typedCount('1.5', 500).why).toContain('whole number');
    expect(typedCount('501', 500).why).toContain('0 to 500');
    expect(typedCount('some', 500).why).toContain('not a number');
    expect(typedCount('', 500)).toEqual({ value: null, why: null });
  });
});
