import { plannedMethodChoices, type Method } from '../contract/vocabulary';

/** The methods most courses are made of; the others are shown on demand. */
export const usualMethods: readonly Method[] = plannedMethodChoices;
