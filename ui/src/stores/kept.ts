// What this browser remembers: between visits, or as long as its tab is open. One that keeps nothing is no error.

type Span = 'visits' | 'tab';
const storeOf = (span: Span): Storage => (span === 'visits' ? localStorage : sessionStorage);

export function recall<T extends object>(key: string, usual: T, span: Span = 'visits'): T {
  try {
    return { ...usual, ...(JSON.parse(storeOf(span).getItem(key) ?? '{}') as Partial<T>) };
  } catch {
    return { ...usual };
  }
}

export function keep(key: string, value: object, span: Span = 'visits'): void {
  try {
    storeOf(span).setItem(key, JSON.stringify(value));
  } catch {
    // Private windows may refuse; it then lasts as long as the page.
  }
}
