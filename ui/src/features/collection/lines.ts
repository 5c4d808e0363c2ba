// The list in which animals are typed: a line for each.
import { massUnit, readNumber, typedMass, type Units } from '../../format';
import { words } from '../../words/en';

export interface Line {
  name: string;
  kind: string;
  tub: string;
  weight: string;
}

const texts = (line: Line): string[] => [line.name, line.kind, line.tub, line.weight];
export const isEmpty = (line: Line): boolean => texts(line).every((text) => text.trim() === '');
export const emptyLine = (): Line => ({ name: '', kind: '', tub: '', weight: '' });

/** Lines that name an animal, with their number from 1; an empty kind means the one above. */
export function filledLines(lines: readonly Line[]): (Line & { row: number })[] {
  let kind = '';
  return lines
    .map((line, index) => {
      kind = line.kind.trim() || kind;
      return { ...line, kind, row: index + 1 };
    })
    .filter((line) => line.name.trim() !== '');
}

/** "Tub 1", "Tub 2", ...: the next that is free. */
export function nextTub(prefix: string, isTaken: (name: string) => boolean): string {
  let number = 1;
  while (isTaken(`${prefix} ${number}`)) number += 1;
  return `${prefix} ${number}`;
}

/** What in a line is not understood, by field; an empty line has no fault. */
export function lineFaults(line: Line, units: Units): { name: string | null; weight: string | null } {
  return {
    name: !isEmpty(line) && line.name.trim() === '' ? words.add.noName : null,
    weight: typedMass(line.weight, units).why,
  };
}

/** A weight typed before the unit was changed keeps the one it was typed in. */
export function withUnit(line: Line, before: Units, now: Units): Line {
  const isBare = before.system !== now.system && readNumber(line.weight) !== null;
  return isBare ? { ...line, weight: `${line.weight.trim()} ${massUnit(before)}` } : line;
}
