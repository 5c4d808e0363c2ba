// How far each screen was scrolled, by entry of the browser's history: kept for the way back and for a reload.
import { keep, recall } from './kept';

const key = 'mitefall.scroll';
const most = 50;

interface Kept {
  next: number;
  at: Record<string, number>;
}

const kept: Kept = recall<Kept>(key, { next: 1, at: {} }, 'tab');

/** The entry we are at, and whether we have been there before. */
function entry(): { id: string; isNew: boolean } {
  const state = history.state as { entry?: number } | null;
  if (state?.entry !== undefined) return { id: String(state.entry), isNew: false };
  const id = kept.next;
  kept.next += 1;
  history.replaceState({ entry: id }, '');
  return { id: String(id), isNew: true };
}

function remember(id: string, top: number): void {
  kept.at[id] = top;
  const ids = Object.keys(kept.at);
  if (ids.length > most) delete kept.at[ids[0] ?? ''];
  keep(key, kept, 'tab');
}

/** Watches the part of the page that scrolls: a new screen begins at its top, one that was left where it was left. */
export function watchScroll(scroll: HTMLElement, content: HTMLElement): () => void {
  let here = '';
  /** Where it is to go once there is enough of it; null: it is where its reader put it. */
  let wanted: number | null = null;

  const reach = (): void => {
    if (wanted === null) return;
    scroll.scrollTop = wanted;
    if (scroll.scrollHeight - scroll.clientHeight >= wanted) wanted = null;
  };
  const arrive = (): void => {
    const { id, isNew } = entry();
    here = id;
    wanted = isNew ? 0 : (kept.at[id] ?? 0);
    // After the screen of before has gone.
    requestAnimationFrame(reach);
  };
  const note = (): void => {
    if (wanted === null) remember(here, scroll.scrollTop);
  };
  /** The browser tells of scrolling with the next picture, which may come after the screen was left. */
  const depart = (): void => {
    if (here !== '') note();
  };
  const leaveIt = (): void => void (wanted = null);

  const grown = new ResizeObserver(reach);
  grown.observe(content);
  // Before anybody else hears of it, and changes the screen.
  addEventListener('hashchange', depart, { capture: true });
  addEventListener('hashchange', arrive);
  scroll.addEventListener('scroll', note, { passive: true });
  const own = ['wheel', 'touchmove', 'keydown', 'pointerdown'] as const;
  own.forEach((kind) => addEventListener(kind, leaveIt, { passive: true }));
  arrive();
  return () => {
    grown.disconnect();
    removeEventListener('hashchange', depart, { capture: true });
    removeEventListener('hashchange', arrive);
    scroll.removeEventListener('scroll', note);
    own.forEach((kind) => removeEventListener(kind, leaveIt));
  };
}
