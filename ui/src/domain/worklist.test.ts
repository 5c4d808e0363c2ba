import { describe, expect, it } from 'vitest';
import { said } from '../../test/said';
import type { Caution, Task } from '../contract/answers';
import { usualBench } from './bench';
import {
  amountOf,
  cautionsByPlace,
  cautionsOf,
  headCautions,
  letterOf,
  ownCautions,
  progressOf,
  readAtOnce,
  stopsOf,
  strengthOf,
  visitsOf,
  waysOf,
} from './worklist';

const task = (key: string, rest: Partial<Task> = {}): Task => ({
  key,
  kind: 'treat',
  day: '2026-11-25',
  planned: '2026-11-25',
  room: 'snakes',
  enclosure: 'a-01',
  animals: [],
  danger: 'healthy',
  rule: 'treat',
  args: {},
  text: said(key),
  method: null,
  thing: null,
  amount_ml: null,
  strength_mg_per_l: null,
  agent: null,
  overdue: false,
  state: 'open',
  skipped_because: null,
  entry: null,
  cautions: [],
  steps: [],
  ...rest,
});

const caution = (text: string): Caution => ({
  ...{ rule: text, args: {}, text: said(text), tag: 'P', source: null, animals: [] },
});
const cautions = (...texts: string[]): Caution[] => texts.map(caution);

describe('one place at a time', () => {
  const gloves = (key: string): Task => task(key, { kind: 'hygiene', room: null, enclosure: null });
  it('has the words on hands and gloves at the head of the place they come before', () => {
    const { visits, after } = visitsOf([
      gloves('wash'),
      task('1'),
      task('2'),
      gloves('change'),
      task('3', { enclosure: 'a-02' }),
      gloves('last'),
    ]);
    expect(visits.map((one) => [one.before.map(({ key }) => key), one.tasks.map(({ key }) => key)])).toEqual([
      [['wash'], ['1', '2']],
      [['change'], ['3']],
    ]);
    expect(after.map(({ key }) => key)).toEqual(['last']);
  });
  it('tells a warning of two steps once, and none that was read at the head', () => {
    const steps = [
      task('1', { cautions: cautions('gloves', 'eyes') }),
      task('2', { cautions: cautions('eyes', 'shed') }),
    ];
    expect(cautionsOf(steps, cautions('gloves')).map(({ text }) => text)).toEqual(['eyes', 'shed']);
  });
  it('tells an amount in squirts once they were counted, and never what is to be mixed', () => {
    const units = { system: 'metric', scale: 'C' } as const;
    const counted = { ...usualBench, squirts: '25', squirtsMl: '20' };
    const spray = task('1', { amount_ml: 10, agent: 'ivermectin', strength_mg_per_l: 10 });
    expect(amountOf(spray, units, usualBench)).toBe('10 mL · ivermectin 10 mg/L');
    // 10 mL hold 12 squirts of 0.8 mL, 9.6 mL.
    expect(amountOf(spray, units, counted)).toBe(
      '10 mL · 12 squirts (rounded down, 9.6 mL) · ivermectin 10 mg/L',
    );
    expect(amountOf({ ...spray, kind: 'mix' }, units, counted)).toBe('10 mL · ivermectin 10 mg/L');
    expect(amountOf({ ...spray, amount_ml: 0.5 }, units, counted)).toContain('less than one squirt');
  });
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

  it('tells each way of doing things once, by a letter, of what is still open', () => {
    const wash = ['step_brush_tub', 'step_wash_tub'];
    const tasks = [
      task('1', { steps: ['step_hands'], state: 'done' }),
      task('2', { steps: wash }),
      task('3', { steps: [...wash, 'step_dry'] }),
      task('4', { steps: [...wash] }),
      task('5'),
    ];
    const ways = waysOf(tasks);
    expect(ways).toEqual([
      { letter: 'A', steps: wash },
      { letter: 'B', steps: [...wash, 'step_dry'] },
    ]);
    expect(tasks.map((one) => letterOf(one.steps, ways))).toEqual(['', 'A', 'B', 'A', '']);
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
    const one = task('1', { cautions: [caution('a'), caution('b')] });
    expect(ownCautions(one, [caution('a')]).map((each) => each.text)).toEqual(['b']);
  });

  const headOf = (tasks: Task[]) => headCautions(tasks).map((caution) => caution.text);

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
      task(key, {
        enclosure: key,
        method: 'spray-bedding',
        cautions: [{ ...caution('Paper is thin'), animals: ['paper'] }, caution('Paper is wetted')],
      }),
    );
    expect(headOf(both)).toEqual(['Paper is wetted']);
  });

  it('is read a glance at a time: three short ones, fewer of many letters, always one', () => {
    const long = (letters: number): string => 'a'.repeat(letters);
    const read = (...texts: string[]): number => readAtOnce(cautions(...texts)).length;
    expect(read()).toBe(0);
    expect(read('a', 'b', 'c', 'd')).toBe(3);
    expect(read(long(300), long(120), 'c')).toBe(2);
    expect(read(long(300), long(121), 'c')).toBe(1);
    expect(read(long(1000), 'b')).toBe(1);
  });

  it('never shows a strength without what it is of', () => {
    expect(strengthOf(task('1', { strength_mg_per_l: 10, agent: 'ivermectin' }))).toBe('ivermectin 10 mg/L');
    expect(strengthOf(task('3'))).toBe('');
  });
});
