import type { Method } from '../contract/answers';

/** The methods most courses are made of; the others are shown on demand. */
export const usualMethods: readonly Method[] = [
  'spray-animal',
  'spray-bedding',
  'soak',
  'wipe',
  'change-substrate',
  'treat-room',
];
