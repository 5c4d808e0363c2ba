import { describe, expect, it } from 'vitest';
import { nothing, roomKind, tubKind } from '../../test/adding';
import { factsOf, stateFacts, stateOf, type Night, type StateAnswers } from './first-night';

const open = { said: null, who: [] };
const no = { said: 'no' as const, who: [] };
const states: StateAnswers = { shed: no, gravid: no, newborn: no };
const night: Night = {
  animals: [
    { name: 'Snake 1', tub: 'Tub 1', kind: 'corn snake', mass_g: 620 },
    { name: 'Snake 2', tub: 'Tub 2', kind: 'corn snake', mass_g: null },
  ],
  states,
  pets: [],
  seen: { animal: 1, where: 'in-water', count: '2-10' },
};
const place = {
  onRecord: nothing,
  roomName: 'Snake room',
  room: roomKind,
  tub: tubKind,
  since: '2025-01-01',
};
const kindsOf = (one: Night): string[] => factsOf(one, place, 'not told').map(({ kind }) => kind);

describe('a first night', () => {
  it('knows nothing of what was not answered', () => {
    expect(stateOf(open, 0)).toBeNull();
    expect(stateOf({ said: 'yes', who: [] }, 0)).toBeNull();
    expect(stateOf({ said: 'unknown', who: [0] }, 0)).toBeNull();
    expect(stateOf({ said: 'yes', who: [1] }, 0)).toBe(false);
    expect(stateOf({ said: 'yes', who: [1] }, 1)).toBe(true);
  });

  it('puts what is open on record as open, and what is so as what it is', () => {
    const told = { shed: { said: 'yes' as const, who: [0] }, gravid: open, newborn: no };
    expect(stateFacts('pim', 0, told)).toEqual([
      { kind: 'state-asked', body: { animal: 'pim', no: ['newborn'], unknown: ['gravid'] } },
      { kind: 'shed-seen', body: { animal: 'pim', state: 'cloudy' } },
    ]);
  });

  it('makes rooms, tubs and animals before what is said of them, and one sighting', () => {
    expect(kindsOf(night)).toEqual([
      'room-added',
      'enclosure-added',
      'enclosure-added',
      'animal-arrived',
      'animal-arrived',
      'weighed',
      'state-asked',
      'state-asked',
      'sighted',
    ]);
    expect(factsOf(night, place, '').at(-1)?.body).toEqual({
      enclosure: 'tub-2',
      count: '2-10',
      where: 'in-water',
    });
  });

  it('notes somebody of a kind that is not told where nobody answered for other pets', () => {
    const pets = factsOf({ ...night, pets: null }, place, 'not told').filter(
      ({ kind }) => kind === 'bystander-noted',
    );
    expect(pets.map(({ body }) => body)).toEqual([{ name: 'not told', taxon: '', room: '' }]);
  });
});
