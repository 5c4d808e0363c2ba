// What this browser remembers between visits. A browser that keeps nothing is no error.

export function recall<T extends object>(key: string, usual: T): T {
  try {
    return { ...usual, ...(JSON.parse(localStorage.getItem(key) ?? '{}') as Partial<T>) };
  } catch {
    return { ...usual };
  }
}

export function keep(key: string, value: object): void {
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // Private windows may refuse; the setting then lasts as long as the page.
  }
}
