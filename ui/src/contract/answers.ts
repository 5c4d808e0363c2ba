// What each question answers, by its path under /api/. The types come from docs/schemas.
import type { AdoptedCourse } from './adopted-course';
import type { Batches } from './batches';
import type { Clear } from './clear';
import type { Collection } from './collection';
import type { Cupboard } from './cupboard';
import type { Error as ErrorEnvelope } from './error';
import type { Emptied } from './emptied';
import type { Evidence } from './evidence';
import type { Exposure } from './exposure';
import type { Given } from './given';
import type { Handover } from './handover';
import type { Import } from './import';
import type { Journal } from './journal';
import type { KeepOut } from './keep-out';
import type { Late } from './late';
import type { Matters } from './matters';
import type { WhatHelps } from './what-helps';
import type { Mix } from './mix';
import type { NextCheck } from './next-check';
import type { Origin } from './origin';
import type { Plan } from './plan';
import type { Procedure } from './procedure';
import type { Recorded } from './recorded';
import type { Release } from './release';
import type { Rescore } from './rescore';
import type { Shopping } from './shopping';
import type { Verdicts } from './verdicts';
import type { WebConsequence } from './web-consequence';
import type { WebCourse } from './web-course';
import type { WebEachRound } from './web-each-round';
import type { WebDevices } from './web-devices';
import type { WebIngredients } from './web-ingredients';
import type { WebJob } from './web-job';
import type { WebRulings } from './web-rulings';
import type { WebSituation } from './web-situation';
import type { WebStatus } from './web-status';
import type { WebTaxa } from './web-taxa';
import type { WebTicked } from './web-ticked';
import type { WhyDays } from './why-days';
import type { Worklist } from './worklist';

export interface Answers {
  status: WebStatus['result'];
  situation: WebSituation['result'];
  collection: Collection['result'];
  journal: Journal['result'];
  history: Journal['result'];
  exposure: Exposure['result'];
  given: Given['result'];
  rulings: WebRulings['result'];
  verdicts: Verdicts['result'];
  worklist: Worklist['result'];
  course: AdoptedCourse['result'];
  shopping: Shopping['result'];
  mix: Mix['result'];
  cupboard: Cupboard['result'];
  ingredients: WebIngredients['result'];
  batches: Batches['result'];
  evidence: Evidence['result'];
  taxa: WebTaxa['result'];
  devices: WebDevices['result'];
}

export interface Orders {
  record: Recorded['result'];
  import: Import['result'];
  correct: Recorded['result'];
  withdraw: Recorded['result'];
  undo: Recorded['result'];
  tick: WebTicked['result'];
  skip: WebTicked['result'];
  'take-back': WebTicked['result'];
  adopt: Recorded['result'];
  'catch-up': Recorded['result'];
  batch: Recorded['result'];
  discard: Recorded['result'];
  sharing: WebStatus['result'];
  pair: unknown;
}

export interface JobResults {
  plan: Plan['result'];
  rescore: Rescore['result'];
  late: Late['result'];
  clear: Clear['result'];
  'next-check': NextCheck['result'];
  release: Release['result'];
  'keep-out': KeepOut['result'];
  handover: Handover['result'];
  origin: Origin['result'];
  matters: Matters['result'];
  'what-helps': WhatHelps['result'];
  emptied: Emptied['result'];
  course: WebCourse['result'];
  'each-round': WebEachRound['result'];
  'why-days': WhyDays['result'];
  procedure: Procedure['result'];
  consequence: WebConsequence['result'];
}

export type JobKind = keyof JobResults;
export type JobAnswer = WebJob['result'];
export type Fault = Omit<ErrorEnvelope['error'], 'kind'> & {
  kind: ErrorEnvelope['error']['kind'] | 'unreachable' | 'unpaired';
};

/** One thing that is asked before facts go on record. */
export type Asked = NonNullable<Orders['record']['asks']>[number];
export type Entry = Journal['result']['entries'][number];
export type FactKind = Entry['kind'];
export type CollectionAnswer = Answers['collection'];
export type Animal = CollectionAnswer['animals'][number];
export type Enclosure = CollectionAnswer['enclosures'][number];
export type Room = CollectionAnswer['rooms'][number];
export type ImportAnswer = Orders['import'];
export type Ticked = WebTicked['result'];
export type Task = Answers['worklist']['tasks'][number];
export type Caution = Task['cautions'][number];
export type PlanAnswer = JobResults['plan'];
export type AdoptedAnswer = Answers['course'];
export type ScoredPlan = PlanAnswer['recommended'];
export type Verdict = Answers['verdicts']['verdicts'][number];
export type Ruling = Verdict['ruling'];
export type Danger = Task['danger'];
export type { CheckMethod, Condition, Method, SeenCount as Seen, SeenWhere } from './vocabulary';
