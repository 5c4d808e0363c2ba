import { describe, expect, it } from 'vitest';
import type { AdoptedAnswer, Method, ScoredPlan } from '../contract/answers';
import {
  apartFrom,
  cellOf,
  exceptionsAlike,
  holds,
  isOfRound,
  nowForbidden,
  withoutSpray,
  timelineOf,
  sprayedAnimals,
  type Round,
} from './plan';

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

  it('knows the tasks of a round by the day their keys begin with', () => {
    expect(isOfRound('2026-11-25/animal/juno', '2026-11-25')).toBe(true);
    expect(isOfRound('2026-11-26/animal/juno', '2026-11-25')).toBe(false);
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

describe('a plan', () => {
  const treatment = (enclosure: string | null, method: string) => ({
    room: 'snakes',
    enclosure,
    method,
    animals: [],
  });

  it('tells an exception once for all the animals it is made of, and no two that differ as one', () => {
    const of = (animal: string, text: string, reason: string) =>
      ({ animal, text, reason }) as NonNullable<AdoptedAnswer['exceptions']>[number];
    expect(
      exceptionsAlike([
        of('ada', 'soaked', 'too light'),
        of('cleo', 'left out', 'gravid'),
        of('juno', 'soaked', 'too light'),
        of('milo', 'soaked', 'it reacted'),
      ]).map(({ animals }) => animals),
    ).toEqual([['ada', 'juno'], ['cleo'], ['milo']]);
  });

  it('is turned into a row for each place with a cell for each round', () => {
    const rounds = [
      {
        treatments: [
          treatment('a', 'spray-animal'),
          treatment('a', 'spray-animal'),
          treatment(null, 'treat-room'),
        ],
      },
      { treatments: [treatment('a', 'soak')] },
    ] as unknown as ScoredPlan['rounds'];
    expect(timelineOf(rounds).map((row) => [row.enclosure, row.methods])).toEqual([
      ['a', [['spray-animal'], ['soak']]],
      [null, [['treat-room'], []]],
    ]);
  });
});
