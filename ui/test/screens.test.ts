import { describe, expect, it } from 'vitest';
import type { ScoredPlan, Task } from '../src/contract/answers';
import { groupReached, pathText, type Exposed } from '../src/features/tonight/exposure';
import { timelineOf } from '../src/domain/plan';
import { matches, sorted } from '../src/domain/tables';
import {
  cautionsByPlace,
  headCautions,
  ownCautions,
  progressOf,
  stopsOf,
  strengthOf,
} from '../src/domain/worklist';
import { benchBody, benchQuery, usualBench } from '../src/domain/bench';

const task = (key: string, rest: Partial<Task> = {}): Task => ({
  key,
  kind: 'treat',
  day: '2026-11-25',
  planned: '2026-11-25',
  room: 'snakes',
  enclosure: 'a-01',
  animals: [],
  danger: 'healthy',
  text: key,
  method: null,
  amount_ml: null,
  strength_mg_per_l: null,
  agent: null,
  overdue: false,
  state: 'open',
  skipped_because: null,
  entry: null,
  cautions: [],
  ...rest,
});

describe('the worklist', () => {
  it('keeps the working order: a place that is come back to is another stop', () => {
    const tasks = [task('1'), task('2'), task('3', { enclosure: 'a-02' }), task('4')];
    expect(stopsOf(tasks).map((stop) => stop.tasks.map((one) => one.key))).toEqual([
      ['1', '2'],
      ['3'],
      ['4'],
    ]);
  });

  it('counts what is done, skipped or waits to be sent, but not words on hygiene', () => {
    const tasks = [
      task('1', { state: 'done' }),
      task('2', { state: 'skipped' }),
      task('3'),
      task('4'),
      task('5', { kind: 'hygiene' }),
    ];
    expect(progressOf(tasks, (one) => one.state !== 'open' || one.key === '3')).toEqual({ done: 3, all: 4 });
  });

  it('does not repeat beside a task what holds all day', () => {
    const caution = (text: string) => ({ text, tag: 'P' as const, source: null });
    const one = task('1', { cautions: [caution('a'), caution('b')] });
    expect(ownCautions(one, [caution('a')]).map((each) => each.text)).toEqual(['b']);
  });

  const cautions = (...texts: string[]) => texts.map((text) => ({ text, tag: 'P' as const, source: null }));
  const headOf = (tasks: Task[], names: string[] = []) =>
    headCautions(tasks, names).map((caution) => caution.text);

  it('says at its head only what stands on every task of a group', () => {
    const spray = (key: string, ...texts: string[]) =>
      task(key, { enclosure: key, method: 'spray-animal', cautions: cautions(...texts) });
    const tasks = [
      spray('1', 'gloves', '2 animals share its enclosure: keep it apart'),
      spray('2', 'gloves'),
      task('3', { method: 'change-substrate', cautions: cautions('bag it') }),
      task('4', { enclosure: 'b', method: 'change-substrate', cautions: cautions('bag it') }),
    ];
    expect(headOf(tasks)).toEqual(['gloves', 'bag it']);
    expect(ownCautions(tasks[0]!, headCautions(tasks)).map((one) => one.text)).toEqual([
      '2 animals share its enclosure: keep it apart',
    ]);
  });

  it('gathers what is not at its head by place', () => {
    const tasks = [task('1', { cautions: cautions('a', 'b') }), task('2', { cautions: cautions('b') })];
    expect(cautionsByPlace(tasks, cautions('a'), (one) => one.enclosure ?? '')).toEqual([
      { text: 'b', places: ['a-01'] },
    ]);
  });

  it('leaves what is said of one animal or one place at its task', () => {
    const room = task('1', { method: 'treat-room', cautions: cautions('it is gravid: move it') });
    expect(headOf([room, room])).toEqual([]);
    const both = ['1', '2'].map((key) =>
      task(key, { enclosure: key, method: 'spray-bedding', cautions: cautions('Ada is thin', 'Adapt') }),
    );
    expect(headOf(both, ['Ada', ''])).toEqual(['Adapt']);
  });

  it('never shows a strength without what it is of', () => {
    expect(strengthOf(task('1', { strength_mg_per_l: 10, agent: 'ivermectin' }))).toBe('ivermectin 10 mg/L');
    expect(strengthOf(task('3'))).toBe('');
  });
});

describe('exposure', () => {
  const step = (kind: string, from: string | null, to_room: string | null, text: string) => ({
    kind,
    from,
    to_room,
    text,
  });
  const row = (enclosure: string, chance: number, ...path: object[]): Exposed =>
    ({
      enclosure,
      sighted: false,
      chance,
      text: 'all',
      path: [step('sighted', null, null, 'seen'), ...path],
    }) as Exposed;

  it('tells enclosures reached alike on foot in one line', () => {
    const walked = (enclosure: string) => row(enclosure, 0.3, step('same-room', 'a-05', 'snakes', 'on foot'));
    const groups = groupReached([
      walked('a-01'),
      walked('a-02'),
      row('b-01', 0.3, step('moved-to', 'a-05', 'snakes', 'moved')),
    ]);
    expect(groups.map((group) => group.enclosures)).toEqual([['a-01', 'a-02'], ['b-01']]);
  });

  it('tells the path without the sighting it begins with', () => {
    expect(
      pathText(row('b', 0.1, step('moved-to', 'a', null, 'one'), step('handled-after', 'b', null, 'two'))),
    ).toBe('one; then two');
    expect(pathText(row('b', 0.1))).toBe('all');
  });
});

describe('a plan', () => {
  const treatment = (enclosure: string | null, method: string) => ({
    room: 'snakes',
    enclosure,
    method,
    animals: [],
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

describe('tables', () => {
  it('are sorted as people sort', () => {
    expect(sorted(['Tub 10', 'tub 2', 'Tub 1'], (text) => text, false)).toEqual(['Tub 1', 'tub 2', 'Tub 10']);
    expect(sorted([3, 20, 1], (value) => value, true)).toEqual([20, 3, 1]);
  });

  it('are searched for every word', () => {
    expect(matches('Ada ball python Tub A 01', 'python ada')).toBe(true);
    expect(matches('Ada ball python Tub A 01', 'python bo')).toBe(false);
  });
});

describe('the bench', () => {
  it('is asked the same way by query and by body', () => {
    const bench = {
      ...usualBench,
      stock: '1,87',
      stockUnit: '% w/v' as const,
      syringes: [],
      spoons: ['us_spoons' as const],
      preserved: true,
    };
    expect(benchQuery(bench)).toEqual({
      stock: '1.87 % w/v',
      us_spoons: '1',
      preserved: '1',
      no_syringes: '1',
    });
    expect(benchBody(bench)).toEqual({
      stock: '1.87 % w/v',
      us_spoons: true,
      preserved: true,
      no_syringes: true,
    });
  });
});
