import { describe, expect, it } from 'vitest';
import { wishOf } from './at-home';

describe('what is at home', () => {
  it('asks for nothing where nobody has answered', () => {
    expect(wishOf({ said: false, have: [], tubs: '' })).toEqual({});
  });

  it('begins without a spray where none is there', () => {
    expect(wishOf({ said: true, have: [], tubs: '' })).toEqual({ without_spray: true });
    expect(wishOf({ said: true, have: ['paper'], tubs: '3' })).toEqual({ without_spray: true });
  });

  it('uses the spare tubs there are, and no number that is none', () => {
    expect(wishOf({ said: true, have: ['spray', 'tubs'], tubs: '2' })).toEqual({ spare_tubs: 2 });
    expect(wishOf({ said: true, have: ['spray', 'tubs'], tubs: 'two' })).toEqual({});
  });
});
