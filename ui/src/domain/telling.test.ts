import { expect, test } from 'vitest';
import type { Entry } from '../contract/answers';
import type { Units } from '../format';
import { tell } from './telling';

const units: Units = { system: 'metric', scale: 'C' };
const names = {
  animal: (id: string) => `animal ${id}`,
  enclosure: (id: string) => `enclosure ${id}`,
  room: (id: string) => `room ${id}`,
};
const told = (kind: string, fact: object): string =>
  tell({ id: 1, day: '2026-03-01', recorded_at: '', corrects: null, kind, fact } as Entry, names, units);

test('a kind nobody tells otherwise says its fields in order, by what they name and measure', () => {
  expect(told('handled', { animals: ['a', 'b'], shared_bag: true })).toBe('animal a, animal b');
  expect(told('weighed', { animal: 'a', mass_g: 812 })).toBe('animal a, 812 g');
  expect(told('room-treated', { room: 'r', strength_mg_per_l: 5000 })).toContain('room r, 5');
  expect(told('room-treated', { room: 'r', strength_mg_per_l: null })).toBe('room r');
  expect(told('quarantine-ended', { animal: 'a', reason: null })).toBe('animal a');
  expect(told('task-skipped', { task: 'key', reason: 'shedding' })).toBe('key, shedding');
  expect(told('not yet known', { enclosure: 'e', note: 'x' })).toBe('enclosure e, x');
});
