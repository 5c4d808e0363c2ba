import { describe, expect, it } from 'vitest';
import { said } from '../../test/said';
import type { Answers } from '../contract/answers';
import {
  amountFor,
  batchFor,
  benchLink,
  daysOfMixing,
  isMeasured,
  needsReading,
  syringeFor,
  systemOfUnit,
} from './mix';

type Sheet = Answers['mix'];
const measurement = (rough = false) => ({ rough }) as Sheet['measurement'];
const sheet = (measured: Sheet['measurement']) =>
  ({ measurement: measured, cannot_measure: measured ? null : 'too little' }) as Sheet;

describe('a mix that cannot be measured', () => {
  it('is none', () => {
    expect(isMeasured(sheet(null))).toBe(false);
    expect(isMeasured(sheet(measurement()))).toBe(true);
    expect(isMeasured({ measurement: measurement(), cannot_measure: said('no') })).toBe(false);
  });

  it('is helped by a finer syringe beside those at hand, or by none', async () => {
    const ask = (syringes: string[]) =>
      Promise.resolve(
        sheet(
          syringes.includes('1 mL/0.01 mL')
            ? measurement(!syringes.includes('20 mL/1 mL'))
            : syringes.includes('3 mL/0.1 mL')
              ? measurement()
              : null,
        ),
      );
    expect(await syringeFor(ask, ['20 mL/1 mL'])).toBe('1 mL/0.01 mL');
    expect(await syringeFor(ask, [])).toBe('3 mL/0.1 mL');
    expect(await syringeFor(() => Promise.reject(new Error('no')), [])).toBeNull();
  });
});

it('a unit of the bench belongs to whose measures it is of', () => {
  expect((['mL', 'US quart', 'imp pint'] as const).map((unit) => systemOfUnit[unit])).toEqual([
    ...['metric', 'us', 'imperial'],
  ]);
  // A round amount fills the bench exactly: 17 US fl oz of 29.5735295625 mL each (NIST Handbook 44), 1.5 L.
  expect(amountFor(17 * 29.5735295625, 'us')).toEqual({ amount: '17', unit: 'US fl oz' });
  expect(amountFor(1500, 'metric')).toEqual({ amount: '1.5', unit: 'L' });
  expect(amountFor(15, 'metric')).toEqual({ amount: '15', unit: 'mL' });
});

describe('a strength', () => {
  const published = {
    ...{ standing: 'published' as const, multiple: 1, weakest_mg_per_l: 5 },
    ...{ strongest_mg_per_l: 10, limit_mg_per_l: 10.6 },
  };

  it('above everything published is read about once', () => {
    const strong = { comparison: { ...published, standing: 'above' }, recipe: { strength_mg_per_l: 200 } };
    const accepted = (places: number | null, animals: number[]) => ({
      acknowledged_mg_per_l: places,
      animals: animals.map((strength_mg_per_l) => ({
        acknowledged: [{ day: '2026-03-10', entry: 1, strength_mg_per_l }],
      })),
    });
    expect(needsReading(strong as Sheet, null)).toBe(true);
    expect(needsReading(strong as Sheet, accepted(100, [50]))).toBe(true);
    expect(needsReading(strong as Sheet, accepted(200, []))).toBe(false);
    expect(needsReading(strong as Sheet, accepted(null, [50, 200]))).toBe(false);
    expect(needsReading({ ...strong, comparison: published } as Sheet, null)).toBe(false);
    const perhaps = { ...published, standing: 'above', perhaps: true };
    expect(needsReading({ ...strong, comparison: perhaps } as Sheet, null)).toBe(false);
  });
});

describe('the bench of a task', () => {
  it('is filled with a little more rather than less, in the units of the keeper', () => {
    expect(amountFor(2015.46, 'metric')).toEqual({ amount: '2.05', unit: 'L' });
    expect(amountFor(27, 'metric')).toEqual({ amount: '30', unit: 'mL' });
    expect(amountFor(1000, 'metric')).toEqual({ amount: '1', unit: 'L' });
    expect(amountFor(950, 'us')).toEqual({ amount: '32.5', unit: 'US fl oz' });
    expect(amountFor(28.5, 'imperial')).toEqual({ amount: '1.5', unit: 'imp fl oz' });
  });

  it('is linked with amount and strength', () => {
    expect(benchLink(1200, 10, 'metric')).toBe('#/mix/make?amount=1.2&unit=L&target=10');
    expect(benchLink(20, null, 'metric')).toBe('#/mix/make?amount=20&unit=mL');
  });

  it('gets each day its share of the spare', () => {
    const list = {
      needs: [
        { day: '2026-02-01', volume_ml: 100 },
        { day: '2026-02-02', volume_ml: 300 },
      ],
      spray_ml: 440,
      batches: [{ made_on: '2026-02-01', recipe: { strength_mg_per_l: 10 } }],
    } as unknown as Parameters<typeof daysOfMixing>[0];
    const days = daysOfMixing(list);
    expect(days.map(({ ml }) => Math.round(ml))).toEqual([110, 330]);
    expect(days[1]).toMatchObject({ day: '2026-02-02', strength: 10 });
  });

  it('finds the batch that is in date, strong enough and large enough', () => {
    const batch = (name: string, rest: object = {}) =>
      ({
        ...{ batch: name, agent: 'ivermectin', strength_mg_per_l: 10, total_ml: 2000 },
        ...{ discard_by: '2026-02-10', discarded_on: null, ...rest },
      }) as Parameters<typeof batchFor>[0][number];
    const wanted = { amountMl: 1500, strength: 10, agent: 'ivermectin', today: '2026-02-10' };
    const batches = [
      batch('good'),
      batch('gone', { discarded_on: '2026-02-09' }),
      batch('old', { discard_by: '2026-02-09' }),
      batch('strong', { strength_mg_per_l: 200 }),
      batch('small', { total_ml: 1000 }),
      batch('other', { agent: 'permethrin' }),
    ];
    expect(batchFor(batches, wanted)?.batch).toBe('good');
    expect(batchFor(batches, { ...wanted, amountMl: 2500 })).toBeUndefined();
    expect(batchFor(batches, { ...wanted, strength: null })).toBeUndefined();
  });
});
