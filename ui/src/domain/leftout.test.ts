import { describe, expect, it } from 'vitest';
import type { Method, ScoredPlan } from '../contract/answers';
import { gravestFirst, groupLeftOut, kindOf, whenOf, worthMoving } from './leftout';
import { words } from '../words/en';

type LeftOut = ScoredPlan['left_out'][number];
const because = (rule: string, common: string, own: string | null, remedy: string | null) =>
  ({ rule, common, own, remedy }) as LeftOut['why'];
const out = (day: string, animal: string | null, method: string, why: LeftOut['why'], enclosure = 'tub') =>
  ({ day, enclosure, animal, room: null, method, reason: '', why }) as unknown as LeftOut;

describe('who is left out', () => {
  const rounds = ['1', '2', '3', '4'];

  it('is told once for each rule, and not again for its enclosure', () => {
    const gravid = (day: string) => because('gravid', 'it is gravid', `noted ${day}`, 'ask');
    const rows = rounds.flatMap((day) => [
      out(day, 'cleo', 'spray-animal', gravid('1 Nov 2026'), 'a'),
      out(day, null, 'spray-bedding', gravid('1 Nov 2026'), 'a'),
      out(day, null, 'spray-bedding', gravid('2 Nov 2026'), 'b'),
    ]);
    expect(groupLeftOut(rows, rounds)).toEqual([
      {
        why: gravid('1 Nov 2026'),
        from: 1,
        rounds: 4,
        methods: ['spray-animal', 'spray-bedding'],
        who: [
          { animal: 'cleo', enclosure: 'a', room: null, own: 'noted 1 Nov 2026' },
          { animal: null, enclosure: 'b', room: null, own: 'noted 2 Nov 2026' },
        ],
      },
    ]);
  });

  it('is not gathered by what a sentence looks like', () => {
    const rows = [
      out('1', 'a', 'spray-animal', because('one', 'the same words', null, null)),
      out('1', 'b', 'spray-animal', because('other', 'the same words', null, null)),
    ];
    expect(groupLeftOut(rows, rounds)).toHaveLength(2);
  });

  it('of a course from before rules were kept is gathered by the whole reason', () => {
    const old = (text: string) =>
      ({ ...because('', text, null, null), rule: null }) as unknown as LeftOut['why'];
    const rows = [old('thin'), old('thin'), old('sick')].map((why, i) => out('1', `a${i}`, 'soak', why));
    expect(groupLeftOut(rows, rounds).map((one) => one.who.length)).toEqual([2, 1]);
  });

  it('says from which round on', () => {
    const often = because('too_often', 'at most 3 applications in a course of 60 days', null, 'check');
    const rows = ['3', '4'].flatMap((day) =>
      ['ada', 'ivo'].map((one) => out(day, one, 'spray-animal', often, one)),
    );
    const [group] = groupLeftOut(rows, rounds);
    expect(group).toMatchObject({ from: 3, rounds: 2 });
    expect(group?.who).toHaveLength(2);
    expect(whenOf(group!, 4)).toBe('From round 3 on');
    expect(whenOf({ from: 1, rounds: 4 }, 4)).toBe('In every round');
    expect(whenOf({ from: 1, rounds: 2 }, 4)).toBe('In 2 of 4 rounds');
  });

  const group = (animal: string, remedy: Partial<LeftOut['why']> = {}, from = 1) => ({
    ...{ why: { ...because(animal, animal, null, null), ...remedy }, from, rounds: 1 },
    ...{ methods: ['spray-animal' as Method], who: [{ animal, enclosure: 'a', room: null, own: '' }] },
  });

  it('says what those left out are', () => {
    const place = (animal: string | null, enclosure: string | null, room: string | null) => ({
      ...{ animal, enclosure, room },
      own: '',
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
    const sorted = gravestFirst([group('ada'), group('cy'), group('bo'), group('bo', {}, 3)], (animal) =>
      animal in ruling ? ruling[animal as keyof typeof ruling] : undefined,
    );
    expect(sorted.map((one) => [one.why.rule, one.from])).toEqual([
      ['bo', 1],
      ['cy', 1],
      ['ada', 1],
      ['bo', 3],
    ]);
  });

  it('names one thing that can be changed only when it stands in the way of most', () => {
    const move = group('ada', {
      remedy_rule: 'move_to_another_room',
      remedy_args: { who: [{ id: null, name: 'Ezra' }] },
    });
    const ask = group('bo', { remedy_rule: 'gentler_methods' });
    expect(worthMoving([move, ask], 1)).toEqual({ who: ['Ezra'], count: 1 });
    expect(worthMoving([move], 2)).toBeNull();
    expect(worthMoving([ask], 0)).toBeNull();
  });
});
