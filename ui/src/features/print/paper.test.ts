import { describe, expect, it } from 'vitest';
import { courseOf } from './paper';

describe('the paper of an enclosure', () => {
  it('is told by enclosure from what is still to be sprayed', () => {
    const shopping = {
      enclosures: [{ enclosure: 'a', sprayings: 5 }],
      animals: [{ animal: 'ada', times: 3 }],
    } as unknown as Parameters<typeof courseOf>[0];
    expect(courseOf(shopping, 'a', ['ada', 'bo'])).toEqual({
      bedding: 5,
      animals: [{ animal: 'ada', times: 3 }],
    });
    expect(courseOf(shopping, 'b', ['bo'])).toEqual({ bedding: 0, animals: [] });
  });
});
