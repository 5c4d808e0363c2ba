import { describe, expect, it } from 'vitest';
import { nothing, roomKind, tubKind } from '../../test/adding';
import { Adder } from './adding';
import { arrivedOn, standing } from './since';
import type { Entry } from '../contract/answers';

describe('since when animals are here', () => {
  const body = { taxon: '', origin: '', quarantine: false };
  const daysOf = (adder: Adder) => adder.facts.map((one) => [one.kind, one.day]);

  it('is a long time, a day, or today', () => {
    expect(arrivedOn('long', '', '2026-11-26')).toBe('2025-10-22');
    expect(arrivedOn('since', '2026-03-14', '2026-11-26')).toBe('2026-03-14');
    expect(arrivedOn('today', '2026-03-14', '2026-11-26')).toBeUndefined();
  });

  it('is the day of new rooms and enclosures too, not of weights', () => {
    const adder = new Adder(nothing, roomKind, tubKind);
    const animal = adder.animal(
      'Ada',
      { ...body, enclosure: adder.enclosure('A1', adder.room('R')) },
      '2025-10-22',
    );
    adder.weight(animal, 1620);
    expect(daysOf(adder)).toEqual([
      ['room-added', '2025-10-22'],
      ['enclosure-added', '2025-10-22'],
      ['animal-arrived', '2025-10-22'],
      ['weighed', undefined],
    ]);
  });

  it('is never before the place on record stood', () => {
    const onRecord = {
      rooms: new Map([['r', 'R']]),
      enclosures: new Map([['a1', 'A1']]),
      animals: new Map(),
      since: { rooms: new Map([['r', '2026-01-02']]), enclosures: new Map([['a1', '2026-02-03']]) },
    };
    const adder = new Adder(onRecord, roomKind, tubKind);
    const room = adder.room('R');
    adder.animal('Ada', { ...body, enclosure: adder.enclosure('A1', room) }, '2025-10-22');
    adder.animal('Bo', { ...body, enclosure: adder.enclosure('A2', room) }, '2025-10-22');
    expect(daysOf(adder)).toEqual([
      ['enclosure-added', '2026-01-02'],
      ['animal-arrived', '2026-01-02'],
      ['animal-arrived', '2026-02-03'],
    ]);
  });

  it('goes by the entries in force', () => {
    const entry = (id: number, day: string, enclosure: string, corrects: number | null = null) =>
      ({ id, day, corrects, kind: 'enclosure-added', fact: { enclosure } }) as unknown as Entry;
    const { since } = standing([entry(1, '2026-01-01', 'a'), entry(2, '2025-01-01', 'a', 1)]);
    expect(since.enclosures.get('a')).toBe('2025-01-01');
  });
});

describe('an animal named as one that has left', () => {
  it('gets a record of its own, not the weight of the other', () => {
    const arrived = {
      id: 1,
      day: '2026-01-01',
      corrects: null,
      kind: 'animal-arrived',
      fact: { animal: 'moss' },
    };
    const { ever } = standing([arrived as unknown as Entry]);
    const adder = new Adder({ ...nothing, ever }, roomKind, tubKind);
    const body = { taxon: '', origin: '', quarantine: false, enclosure: 'a1' };
    expect(adder.knowsAnimal('Moss')).toBe(false);
    expect(adder.animal('Moss', body)).toBe('moss-2');
  });
});
