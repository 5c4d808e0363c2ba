import { describe, expect, it } from 'vitest';
import { roomKind, tubKind } from '../../../test/adding';
import type { ImportAnswer } from '../../contract/answers';
import { bodyOf, isSettled, type Answers } from './importing';

const answers: Answers = {
  text: 'Name,Tub\nAda,A1',
  columns: {},
  room: 'Snake room',
  roomKind,
  tubKind,
  since: undefined,
  quarantine: false,
  order: null,
  kinds: {},
  sameNames: {},
};

const row = { row: 1, animal: 'Ada', written: '', kind: '', enclosure: 'A1', room: 'R' };
const answer = {
  rows: [{ ...row, weight_g: null, since: null, quarantine: false }],
  problems: [{ row: 3 }, { row: 3 }],
  kinds: [],
  questions: { days_of_two: [], same_names: [] },
} as unknown as ImportAnswer;

describe('what is asked about a table', () => {
  it('counts columns from 1, and names one that is none', () => {
    expect(bodyOf({ ...answers, columns: { weight: 2, kind: null } }, null, null)).toMatchObject({
      columns: ['weight=3', 'kind='],
    });
  });

  it('leaves rows out only where their problems were seen', () => {
    expect(bodyOf(answers, answer, null)).toMatchObject({ leave_out: [] });
    expect(bodyOf(answers, answer, answer)).toMatchObject({ leave_out: ['3'] });
  });

  it('tells what was answered of a name that is taken', () => {
    const names = [
      { name: 'Ada', rows: [1], on_record: true },
      { name: 'Bo', rows: [2, 4], on_record: false },
    ];
    const asked = { ...answer, questions: { days_of_two: [], same_names: names } };
    expect(
      bodyOf({ ...answers, sameNames: { Ada: 'leave-out', Bo: 'leave-out' } }, asked, null),
    ).toMatchObject({
      other: [],
      leave_out: ['1', '4'],
    });
    expect(bodyOf({ ...answers, sameNames: { Ada: 'other' } }, asked, null)).toMatchObject({
      other: ['Ada'],
    });
  });
});

describe('an answer about a table', () => {
  it.each([
    [{}, true],
    [{ rows: [] }, false],
    [{ questions: { days_of_two: ['03/04/2026'], same_names: [] } }, false],
    [{ kinds: [{ how: 'several', name: null }] }, false],
    [{ kinds: [{ how: 'several', name: 'California kingsnake' }] }, true],
    [{ kinds: [{ how: 'unknown', name: 'moon snake' }] }, true],
  ])('is settled once nothing is asked: %j', (other, settled) =>
    expect(isSettled({ ...answer, ...other } as ImportAnswer)).toBe(settled),
  );
});
