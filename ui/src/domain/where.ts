// Places where a mite is seen, finer than the records know them: which of their places each is.
import type { SeenWhere } from '../contract/answers';

export const spots = [
  'eye-rims',
  'heat-pits',
  'mouth-corners',
  'chin-groove',
  'lowest-scales',
  'vent',
  'elsewhere',
  'water-bowl',
  'paper-folds',
  'hide',
  'hands',
] as const;
export type Spot = (typeof spots)[number];

/** A hide is a place of the nest, as the paper is: off the animal, and the forecast takes both for the same. */
export const recordedAs: Record<Spot, SeenWhere> = {
  'eye-rims': 'on-animal',
  'heat-pits': 'on-animal',
  'mouth-corners': 'on-animal',
  'chin-groove': 'on-animal',
  'lowest-scales': 'on-animal',
  vent: 'on-animal',
  elsewhere: 'on-animal',
  'water-bowl': 'in-water',
  'paper-folds': 'on-paper',
  hide: 'on-paper',
  hands: 'on-hands',
};

/** The place an address names: "on=vent". */
export const spotIn = (query: URLSearchParams): Spot | null =>
  spots.find((spot) => spot === query.get('on')) ?? null;
