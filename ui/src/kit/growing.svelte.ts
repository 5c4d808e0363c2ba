// A long list stands at once with its first rows; the others come a few at a time, so that nobody waits for a thousand of
// them before the screen is there. Before it is printed it is whole.
import { flushSync, untrack } from 'svelte';

class Pending {
  count = $state(0);
}
const pending = new Pending();

/** Whether some list on the screen is not whole yet. */
export const isGrowing = (): boolean => pending.count > 0;

export class Growing<T> {
  private most = $state(0);
  /** No more than these come by themselves. */
  bound = $state(Infinity);
  private readonly aim = $derived.by(() => Math.min(this.list().length, this.bound));
  readonly shown = $derived.by(() => this.list().slice(0, Math.min(this.most, this.aim)));

  constructor(
    private readonly list: () => readonly T[],
    private readonly step: number,
    first: number,
  ) {
    this.most = first;
  }

  get isWhole(): boolean {
    return this.most >= this.aim;
  }

  /** The next few, after what there is has been painted; gives what calls that off. */
  grow(): (() => void) | undefined {
    if (this.isWhole) return undefined;
    untrack(() => (pending.count += 1));
    const timer = setTimeout(() => (this.most += this.step), 16);
    return () => {
      clearTimeout(timer);
      untrack(() => (pending.count -= 1));
    };
  }

  /** All of them, at once. */
  finish(): void {
    flushSync(() => {
      this.bound = Infinity;
      this.most = Infinity;
    });
  }
}

/**
 * To be called while a component is made: `list` with its `first` rows, and `step` more each frame. `bound`: how many
 * come by themselves at most; the rest when `bound` is raised, or for paper.
 */
export function growing<T>(
  list: () => readonly T[],
  step: number,
  { bound = Infinity, first = step }: { bound?: number; first?: number } = {},
): Growing<T> {
  const grown = new Growing(list, step, first);
  grown.bound = bound;
  $effect(() => grown.grow());
  $effect(() => {
    const finish = (): void => grown.finish();
    addEventListener('beforeprint', finish);
    return () => removeEventListener('beforeprint', finish);
  });
  return grown;
}
