// What is typed into a field and not sent yet: kept as long as the tab, by screen and name of the field, so that neither a
// reload nor a way back loses it. A form with a draft of its own says so (`data-own-draft`). Choices are never chosen again
// by themselves, and nothing is filled into a question laid over the screen: that would be an answer nobody gave.
import { sent } from '../api/client';
import { keep, recall } from './kept';

const key = 'mitefall.half-typed';
type Field = HTMLInputElement | HTMLTextAreaElement;
/** By the address of the screen, then by the name of the field. */
type Kept = Record<string, Record<string, string>>;

const typed = new Set(['text', 'number', 'date', 'tel']);
const isTyped = (one: EventTarget | null): one is Field =>
  one instanceof HTMLTextAreaElement || (one instanceof HTMLInputElement && typed.has(one.type));

const isOurs = (field: Field): boolean => !field.closest('dialog, [data-own-draft]');
const fieldsIn = (root: ParentNode): Field[] =>
  [...root.querySelectorAll<Field>('input, textarea')].filter((one) => isTyped(one) && isOurs(one));
const nameOf = (field: Field): string =>
  field.getAttribute('aria-label') ?? field.labels?.[0]?.textContent?.trim() ?? field.placeholder;

/** The fields of the screen by their names; of several with one name the second has a number. */
function named(root: ParentNode): Map<string, Field> {
  const all = new Map<string, Field>();
  for (const field of fieldsIn(root)) {
    const name = nameOf(field);
    let free = name;
    for (let number = 2; all.has(free); number += 1) free = `${name} ${number}`;
    all.set(free, field);
  }
  return all;
}

let kept: Kept = recall<Kept>(key, {}, 'tab');

/** What was typed on that screen was sent: it is no longer half typed. */
function forget(event: Event): void {
  const from = (event as CustomEvent<string>).detail;
  kept = Object.fromEntries(Object.entries(kept).filter(([place]) => place !== from));
  keep(key, kept, 'tab');
}

/** Keeps what is typed below `root`, and puts it back into the fields as they appear; a closed form opens for it. */
export function watchTyped(root: HTMLElement): () => void {
  const seen = new WeakSet<Field>();

  const note = (): void => {
    const here = (kept[location.hash] ??= {});
    for (const [name, field] of named(root)) {
      if (name in here || document.activeElement === field) here[name] = field.value;
      if (here[name] === field.defaultValue) delete here[name];
    }
    if (Object.keys(here).length === 0) delete kept[location.hash];
    keep(key, kept, 'tab');
  };
  const putBack = (): void => {
    for (const [name, field] of named(root)) {
      if (seen.has(field)) continue;
      seen.add(field);
      const text = kept[location.hash]?.[name];
      if (text === undefined || text === field.value) continue;
      for (let form = field.closest('details'); form; form = form.parentElement?.closest('details') ?? null)
        form.open = true;
      field.value = text;
      field.dispatchEvent(new Event('input', { bubbles: true }));
    }
  };
  // A key that empties a field does so after it was pressed.
  const later = (): void => void setTimeout(note);

  const appeared = new MutationObserver(putBack);
  appeared.observe(root, { childList: true, subtree: true });
  root.addEventListener('input', note);
  root.addEventListener('click', later);
  addEventListener(sent, forget);
  putBack();
  return () => {
    appeared.disconnect();
    root.removeEventListener('input', note);
    root.removeEventListener('click', later);
    removeEventListener(sent, forget);
  };
}
