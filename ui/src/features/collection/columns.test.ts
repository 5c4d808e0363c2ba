import { describe, expect, it } from 'vitest';
import { headings } from '../../../test/adding';
import { guessColumns } from './columns';

describe('columns', () => {
  it('are guessed from their headings', () => {
    expect(guessColumns(headings)).toEqual({
      animal: 0,
      kind: 1,
      room: 2,
      enclosure: 3,
      weight: 4,
      arrived: 5,
    });
  });

  it('are never taken for two things', () => {
    const columns = Object.values(guessColumns(['name', 'enclosure_name', 'room', 'day temp', 'night temp']));
    expect(new Set(columns).size).toBe(columns.length);
  });

  it('that say nothing known are left alone', () => {
    expect(guessColumns(['colour of eyes'])).toEqual({});
  });
});
