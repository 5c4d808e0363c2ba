// How long each is, where that is from, and how long it is drawn.
import type { CreatureKind } from '../../kit/draw/creatures';

export interface Thing {
  kind: CreatureKind;
  group: 'mite' | 'moves' | 'still';
  /** As drawn at true size, mm. */
  mm: number;
  low: number;
  high: number;
  /** As in the evidence: R read, R2 read in a text that cites it, P common practice, M from memory. */
  tag: 'R' | 'R2' | 'P' | 'M';
  source: string | null;
}

export const things: Thing[] = [
  { kind: 'mite-fed', group: 'mite', mm: 1.3, low: 1, high: 1.5, tag: 'M', source: null },
  { kind: 'mite-hungry', group: 'mite', mm: 0.6, low: 0.6, high: 0.7, tag: 'M', source: null },
  { kind: 'mite-larva', group: 'mite', mm: 0.4, low: 0.3, high: 0.5, tag: 'M', source: null },
  { kind: 'mite-egg', group: 'mite', mm: 0.35, low: 0.3, high: 0.4, tag: 'M', source: null },
  {
    ...{ kind: 'springtail', group: 'moves', mm: 1.8, low: 0.25, high: 6, tag: 'R' },
    source: 'Mississippi Entomological Museum, Collembola',
  },
  {
    ...{ kind: 'mould-mite', group: 'moves', mm: 0.4, low: 0.2, high: 0.5, tag: 'R2' },
    source: 'Smith and Whitman 2007, field guide, Tyrophagus putrescentiae',
  },
  {
    ...{ kind: 'predatory-mite', group: 'moves', mm: 0.9, low: 0.8, high: 1, tag: 'R' },
    source: 'growers’ data sheets, Stratiolaelaps scimitus',
  },
  {
    ...{ kind: 'tick', group: 'moves', mm: 3.3, low: 3, high: 11, tag: 'R' },
    source: 'encyclopedia article Ixodes ricinus: females 3.0–3.6 mm, fed 11 mm',
  },
  { kind: 'dust', group: 'still', mm: 1.5, low: 0.1, high: 3, tag: 'P', source: null },
  { kind: 'crumb', group: 'still', mm: 2.5, low: 0.5, high: 5, tag: 'P', source: null },
  { kind: 'flake', group: 'still', mm: 4, low: 1, high: 10, tag: 'P', source: null },
];
