import { describe, expect, it } from 'vitest';
import { orderOf, readDay } from './days';

describe('days in a table', () => {
  it.each([
    ['2026-03-14', '2026-03-14'],
    ['14.03.2026', '2026-03-14'],
    ['14/03/2026', '2026-03-14'],
    ['03/14/2026', '2026-03-14'],
    ['14 Mar 2026', '2026-03-14'],
    ['March 14, 2026', '2026-03-14'],
    ['14-mar-26', '2026-03-14'],
    ['2026/3/4', '2026-03-04'],
    ['5/5/2026', '2026-05-05'],
    ['2026-03-14 00:00:00', '2026-03-14'],
  ])('%s is %s', (text, day) => expect(readDay(text, null)).toBe(day));

  it('that may be two need an order', () => {
    expect(readDay('03/04/2026', null)).toBeNull();
    expect(readDay('03/04/2026', 'day')).toBe('2026-04-03');
    expect(readDay('03/04/2026', 'month')).toBe('2026-03-04');
  });

  it.each(['31.02.2026', 'spring', '14/3', '2026-13-01', ''])('%s is none', (text) =>
    expect(readDay(text, 'day')).toBeNull(),
  );

  it('are decided by those that fit only one order', () => {
    expect(orderOf(['03/04/2026', '14/03/2026'])).toBe('day');
    expect(orderOf(['03/04/2026', '03/14/2026'])).toBe('month');
    expect(orderOf(['03/04/2026', '5/5/2026'])).toBe('ask');
    expect(orderOf(['14/03/2026', '03/14/2026', '03/04/2026'])).toBe('ask');
    expect(orderOf(['14/03/2026', '03/14/2026'])).toBeNull();
    expect(orderOf(['2026-03-14', ''])).toBeNull();
  });
});
