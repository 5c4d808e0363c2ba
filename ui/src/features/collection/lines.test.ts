import { describe, expect, it } from 'vitest';
import { nothing, roomKind, tubKind } from '../../../test/adding';
import { metric, us } from '../../../test/units';
import { Adder } from '../../domain/adding';
import { filledLines, lineFaults, nextTub, withUnit } from './lines';

describe('a list that is typed', () => {
  it('takes an empty kind from above and skips empty lines', () => {
    const line = (name: string, kind: string) => ({ name, kind, tub: '', weight: '' });
    const lines = filledLines([
      line('Ada', 'ball python'),
      line('', ''),
      line('Bo', ''),
      line('Cy', 'corn snake'),
    ]);
    expect(lines.map((one) => [one.name, one.kind])).toEqual([
      ['Ada', 'ball python'],
      ['Bo', 'ball python'],
      ['Cy', 'corn snake'],
    ]);
  });

  it('finds free tubs, past those on record and those just made', () => {
    const adder = new Adder({ ...nothing, enclosures: new Map([['tub-1', 'Tub 1']]) }, roomKind, tubKind);
    const room = adder.room('Snake room');
    for (let count = 0; count < 2; count += 1)
      adder.enclosure(
        nextTub('Tub', (name) => adder.knowsEnclosure(name)),
        room,
      );
    expect(adder.facts.slice(1).map((one) => one.body)).toMatchObject([{ name: 'Tub 2' }, { name: 'Tub 3' }]);
  });

  it('marks a weight that is not understood and a line without a name', () => {
    const units = metric;
    const line = (name: string, weight: string, tub = '') => ({ name, kind: '', tub, weight });
    expect(lineFaults(line('', ''), units)).toEqual({ name: null, weight: null });
    expect(lineFaults(line('Ada', '1620 g'), units)).toEqual({ name: null, weight: null });
    expect(lineFaults(line('', '1620'), units).name).toContain('no name');
    expect(lineFaults(line('', '', 'Tub 3'), units).name).toContain('no name');
    expect(lineFaults(line('Ada', 'abc'), units).weight).toContain('“abc”');
    expect(lineFaults(line('Ada', '-4'), units).weight).toContain('“-4”');
  });

  it('tells which line each fact is from', () => {
    const adder = new Adder(nothing, roomKind, tubKind);
    adder.row = 7;
    const enclosure = adder.enclosure('A1', adder.room('R'));
    adder.row = 9;
    adder.animal('Ada', { taxon: '', origin: '', enclosure, quarantine: false });
    expect(adder.rows).toEqual([7, 7, 9]);
  });
});

describe('the list that is kept', () => {
  const line = (weight: string) => ({ name: 'Ada', kind: '', tub: '', weight });

  it('keeps each weight in the unit it was typed in', () => {
    expect(withUnit(line('1620'), metric, us).weight).toBe('1620 g');
    expect(withUnit(line('1.6 kg'), metric, us).weight).toBe('1.6 kg');
    expect(withUnit(line('1620'), metric, metric).weight).toBe('1620');
  });
});
