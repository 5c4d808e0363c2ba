// The plan that was adopted on this device, in full: the journal keeps its days and places, not each treatment.
import type { CollectionAnswer, ScoredPlan } from '../api/answers';
import { isAdopted } from '../screens/plan';
import { keep, recall } from './kept';

const key = 'mitefall.adopted';

export const rememberAdopted = (plan: ScoredPlan): void => keep(key, { plan });

/** The remembered one, if it is the one that is followed. */
export function recallAdopted(followed: NonNullable<CollectionAnswer['plan']>): ScoredPlan | null {
  const { plan } = recall<{ plan: ScoredPlan | null }>(key, { plan: null });
  try {
    return plan && isAdopted(plan, followed) ? plan : null;
  } catch {
    return null;
  }
}
