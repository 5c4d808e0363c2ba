import { expect, it } from 'vitest';
import { once } from './once';

it('works a thing out once, and another like it for itself', () => {
  let asked = 0;
  const lengthOf = once((things: readonly number[]) => {
    asked += 1;
    return things.length;
  });
  const things = [1, 2];
  expect([lengthOf(things), lengthOf(things), lengthOf([1, 2]), lengthOf([])]).toEqual([2, 2, 2, 0]);
  expect(asked).toBe(3);
});
