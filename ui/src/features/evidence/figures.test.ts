import { describe, expect, it } from 'vitest';
import { metric, plain } from '../../../test/units';
import { showFigure } from './figures';

describe('figures of the evidence', () => {
  it.each([
    [0.01, 'share', '1 %'],
    [0.000001, 'share', '0.0001 %'],
    [60, 'd', '60 days'],
    [1, 'd', '1 day'],
    [26, 'h', '26 hours'],
    [0.3, '1/d', '0.3 per day'],
    [38, 'C', '38 °C'],
    [0.005, 'mL/cm2', '0.005 mL per cm²'],
    [0.2, 'mg/kg', '0.2 mg per kg of body weight'],
    [9, '1', '9'],
    [5, 'parsec', '5 parsec'],
  ])('%d %s', (value, unit, text) => expect(plain(showFigure(value, unit, metric))).toBe(text));
});
