import { describe, expect, it } from 'vitest';
import type { Entry } from '../contract/answers';
import { inForce } from './force';
import { roomAdded } from '../../test/journal';

describe('the journal as it stands', () => {
  it('leaves out what was replaced or withdrawn', () => {
    const withdrawn = { ...roomAdded(3, 'x', [], 2), kind: 'withdrawn' } as unknown as Entry;
    expect(inForce([roomAdded(1, 'a'), roomAdded(2, 'b'), withdrawn]).map((one) => one.id)).toEqual([1]);
  });
});
