// Which drawing a task has, by its kind and its method: never by what its sentence says.
import type { Method, Task } from '../../contract/answers';

export type StepKind =
  | 'mix'
  | 'bowl-out'
  | 'bowl-in'
  | 'drink'
  | 'spray-animal'
  | 'spray-tub'
  | 'spray-room'
  | 'soak'
  | 'wipe'
  | 'paper'
  | 'new-tub'
  | 'wash-tub'
  | 'look'
  | 'lid'
  | 'hands'
  | 'clothes'
  | 'bag'
  | 'no-spray'
  | 'no-sharing'
  | 'no-touch';

const ofMethod: Partial<Record<Method, StepKind>> = {
  'spray-animal': 'spray-animal',
  'spray-bedding': 'spray-tub',
  'permethrin-empty': 'spray-tub',
  'treat-room': 'spray-room',
  soak: 'soak',
  wipe: 'wipe',
  'change-substrate': 'paper',
  'fresh-tub': 'new-tub',
};

const ofKind: Partial<Record<Task['kind'], StepKind>> = {
  mix: 'mix',
  'water-out': 'bowl-out',
  'water-back': 'bowl-in',
  drink: 'drink',
  redampen: 'spray-tub',
  'old-tub': 'wash-tub',
  check: 'look',
};

/** Null: it has none, and its words stand alone. */
export const stepOf = ({ kind, method }: Pick<Task, 'kind' | 'method'>): StepKind | null =>
  (method ? ofMethod[method] : ofKind[kind]) ?? null;
