import { describe, expect, it } from 'vitest';
import type { Method, ScoredPlan } from '../contract/answers';
import { gravestFirst, groupLeftOut, kindOf, splitReason, whenOf, worthMoving } from './leftout';
import { words } from '../words/en';

const out = (day: string, animal: string | null, method: string, reason: string, enclosure = 'tub') =>
  ({ day, enclosure, animal, room: null, method, reason }) as ScoredPlan['left_out'][number];

describe('who is left out', () => {
  const rounds = ['1', '2', '3', '4'];

  it('is told once for each reason, and not again for its enclosure', () => {
    const rows = rounds.flatMap((day) => [
      out(day, 'cleo', 'spray-animal', 'it is gravid (noted 2026-11-01). What to do: ask', 'a'),
      out(day, null, 'spray-bedding', 'it is gravid (noted 2026-11-01). What to do: ask', 'a'),
      out(day, null, 'spray-bedding', 'it is gravid (noted 2026-11-02). What to do: ask', 'b'),
    ]);
    expect(groupLeftOut(rows, rounds)).toEqual([
      {
        reason: 'it is gravid',
        remedy: 'ask',
        from: 1,
        rounds: 4,
        methods: ['spray-animal', 'spray-bedding'],
        who: [
          { animal: 'cleo', enclosure: 'a', room: null, detail: 'noted 1 Nov 2026' },
          { animal: null, enclosure: 'b', room: null, detail: 'noted 2 Nov 2026' },
        ],
      },
    ]);
  });

  it('says from which round on', () => {
    const reason = 'this would be application 4 within 60 days; a course has at most 3. What to do: check';
    const rows = ['3', '4'].flatMap((day) =>
      ['ada', 'ivo'].map((one) => out(day, one, 'spray-animal', reason, one)),
    );
    const [group] = groupLeftOut(rows, rounds);
    expect(group).toMatchObject({ from: 3, rounds: 2 });
    expect(group?.reason).toBe('at most 3 sprayings in a course of 60 days');
    expect(group?.who).toHaveLength(2);
    expect(whenOf(group!, 4)).toBe('From round 3 on');
    expect(whenOf({ from: 1, rounds: 4 }, 4)).toBe('In every round');
    expect(whenOf({ from: 1, rounds: 2 }, 4)).toBe('In 2 of 4 rounds');
  });

  it('keeps what is of one animal apart from what holds for all', () => {
    expect(splitReason('it weighs 95 g; spray needs 200 g. What to do: soak')).toEqual({
      reason: 'spray needs 200 g',
      remedy: 'soak',
      detail: '95 g',
    });
    expect(splitReason('something else')).toEqual({ reason: 'something else', remedy: '', detail: '' });
  });

  const group = (animal: string, remedy = '', from = 1) => ({
    ...{ reason: animal, remedy, from, rounds: 1, methods: ['spray-animal' as Method] },
    who: [{ animal, enclosure: 'a', room: null, detail: '' }],
  });

  it('says what those left out are', () => {
    const place = (animal: string | null, enclosure: string | null, room: string | null) => ({
      ...{ animal, enclosure, room },
      detail: '',
    });
    const animal = place('ada', 'a', null);
    const tub = place(null, 'a', null);
    const room = place(null, null, 'den');
    const { head } = words.plan.leftOutWords;
    expect(head('In every round', 1, kindOf([animal]))).toBe('In every round, 1 animal:');
    expect(head('In every round', 1, kindOf([tub]))).toBe('In every round, 1 enclosure:');
    expect(head('In every round', 2, kindOf([tub, tub]))).toBe('In every round, 2 enclosures:');
    expect(head('In every round', 1, kindOf([room]))).toBe('In every round, 1 room:');
    expect(head('In every round', 2, kindOf([animal, tub]))).toBe('In every round, 2 places:');
  });

  it('tells never and ask a vet first', () => {
    const ruling = { ada: 'wait-until', bo: 'never', cy: 'ask-vet' } as const;
    const sorted = gravestFirst([group('ada'), group('cy'), group('bo'), group('bo', '', 3)], (animal) =>
      animal in ruling ? ruling[animal as keyof typeof ruling] : undefined,
    );
    expect(sorted.map((one) => [one.reason, one.from])).toEqual([
      ['bo', 1],
      ['cy', 1],
      ['ada', 1],
      ['bo', 3],
    ]);
  });

  it('names one thing that can be changed only when it stands in the way of most', () => {
    const move = group('ada', 'move Ezra to another room first and record it');
    expect(worthMoving([move, group('bo', 'ask')], 1)).toEqual({
      remedy: 'move Ezra to another room first',
      count: 1,
    });
    expect(worthMoving([move], 2)).toBeNull();
    expect(worthMoving([group('bo', 'ask')], 0)).toBeNull();
  });
});
