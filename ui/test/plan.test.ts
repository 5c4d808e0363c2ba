import { describe, expect, it } from 'vitest';
import type { AdoptedAnswer, Method, ScoredPlan } from '../src/contract/answers';
import { gravestFirst, groupLeftOut, kindOf, splitReason, whenOf, worthMoving } from '../src/domain/leftout';
import { marksWithin } from '../src/kit/chart';
import { courseOf } from '../src/features/print/paper';
import {
  apartFrom,
  cellOf,
  holds,
  nowForbidden,
  withoutSpray,
  timelineOf,
  sprayedAnimals,
  type Round,
} from '../src/domain/plan';
import { words } from '../src/words/en';

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

describe('a chart', () => {
  it('draws no day of a round before its first or after its last day', () => {
    expect(marksWithin([1, 10, 15, 20, 21], [10, 12, 20])).toEqual([10, 15, 20]);
    expect(marksWithin([1], [])).toEqual([]);
  });
});

describe('a plan', () => {
  const round = (day: string, own_date: boolean, ...done: [Method, string[]][]) =>
    ({
      ...{ planned: day, day, own_date },
      treatments: done.map(([method, animals]) => ({ room: 'r', enclosure: 'a', method, animals })),
    }) as unknown as Round;

  it('says who of an enclosure is not sprayed with the others', () => {
    const [row] = timelineOf([round('1', false, ['spray-animal', ['lena']]), round('2', false)]);
    expect(apartFrom(row!, 0, ['lena', 'milo'])).toEqual(['milo']);
    expect(apartFrom(row!, 1, ['lena', 'milo'])).toEqual([]);
    expect(cellOf(row!, 0, ['lena', 'milo'])).toEqual([{ method: 'spray-animal', animals: ['lena'] }]);
    expect(cellOf(row!, 0, ['lena'])).toEqual([{ method: 'spray-animal', animals: [] }]);
  });

  it('names who may not be sprayed any more', () => {
    const rounds = [
      round('2026-02-01', false, ['spray-animal', ['ada', 'bo']], ['spray-bedding', []]),
      round('2026-02-04', false, ['spray-animal', ['bo', 'cy']]),
    ];
    const [row] = timelineOf(rounds);
    const ruling = { ada: 'ask-vet', bo: 'bedding-only', cy: 'allowed' } as const;
    const rulingOf = (animal: string) => ruling[animal as keyof typeof ruling];
    const at = (today: string) =>
      nowForbidden(row!, rounds, { today, inside: ['ada', 'bo', 'cy'] }, rulingOf).map(
        ({ animal, method }) => `${animal} ${method}`,
      );
    expect(at('2026-02-01')).toEqual(['ada spray-animal', 'bo spray-animal', 'ada spray-bedding']);
    expect(at('2026-02-02')).toEqual(['bo spray-animal']);
  });

  it('knows where nothing is sprayed', () => {
    const rowOf = (...methods: Method[]) =>
      timelineOf([round('1', false, ...methods.map((one): [Method, string[]] => [one, []]))])[0]!;
    expect(withoutSpray(rowOf('change-substrate'))).toBe('paperOnly');
    expect(withoutSpray(rowOf('change-substrate', 'soak'))).toBe('noSpray');
    expect(withoutSpray(rowOf('change-substrate', 'spray-bedding'))).toBeNull();
  });

  it('counts the animals it sprays', () => {
    const rounds = [
      round('1', false, ['spray-animal', ['lena', 'milo']], ['spray-bedding', ['otto']]),
      round('2', false, ['soak', ['gus']]),
    ];
    expect(sprayedAnimals(rounds)).toBe(2);
  });

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

  it('is told by the treatments on record, and by what was asked only where there are none', () => {
    const soaking: Pick<AdoptedAnswer, 'rounds'> = { rounds: [round('1', false, ['soak', ['bo']])] };
    expect(holds(soaking, true, 'spray-animal')).toBe(false);
    expect(holds(soaking, false, 'soak')).toBe(true);
    expect(holds(soaking, true, 'treat-room', 'attic')).toBe(false);
    expect(holds({ rounds: null }, true, 'soak')).toBe(true);
    expect(holds(null, false, 'soak')).toBe(false);
  });
});
