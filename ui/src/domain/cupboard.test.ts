import { describe, expect, it } from 'vitest';
import { emptyLabel, isComplete, labelQuery, type Label } from './cupboard';

const label = (changed: Partial<Label>): Label => ({ ...emptyLabel(), ...changed });

describe('a label as it is asked about', () => {
  it('goes as the label has it, with a point for a comma', () => {
    const typed = label({
      lines: [
        { name: ' permethrin ', amount: '0,5', unit: '%' },
        { name: '', amount: '', unit: '%' },
        { name: 'water', amount: '', unit: '%' },
      ],
      form: 'plain',
      pack: '500',
      price: '12,9',
    });
    expect(isComplete(typed)).toBe(true);
    expect(labelQuery(typed, 'or_')).toEqual({
      or_ingredient: ['permethrin 0.5 %', 'water'],
      or_is: 'plain',
      or_pack: '500 mL',
      or_price: '12.9 EUR',
    });
  });
  it('is not asked about while nothing is named or a number is none', () => {
    expect(isComplete(emptyLabel())).toBe(false);
    expect(isComplete(label({ lines: [{ name: 'permethrin', amount: 'half', unit: '%' }] }))).toBe(false);
    expect(isComplete(label({ lines: [{ name: '', amount: '5', unit: '%' }] }))).toBe(false);
    expect(isComplete(label({ lines: [{ name: 'soap', amount: '', unit: '%' }], pack: 'big' }))).toBe(false);
  });
});
