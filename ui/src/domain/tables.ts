/** Rows sorted by what `key` makes of them; numbers by size, texts as people sort them ("Tub 2" before "Tub 10"). */
export function sorted<T>(rows: readonly T[], key: (row: T) => string | number, down: boolean): T[] {
  const inOrder = [...rows].sort((a, b) => compare(key(a), key(b)));
  return down ? inOrder.reverse() : inOrder;
}

const people = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

function compare(a: string | number, b: string | number): number {
  return typeof a === 'number' && typeof b === 'number' ? a - b : people.compare(String(a), String(b));
}

/** Whether every word that is looked for occurs. */
export function matches(text: string, find: string): boolean {
  const low = text.toLowerCase();
  return find
    .toLowerCase()
    .split(/\s+/)
    .every((word) => low.includes(word));
}

/** Things by what `key` makes of them, in the order of their first. */
export function groupBy<T>(things: readonly T[], key: (thing: T) => string): Map<string, [T, ...T[]]> {
  const groups = new Map<string, [T, ...T[]]>();
  for (const thing of things) {
    const group = groups.get(key(thing));
    if (group) group.push(thing);
    else groups.set(key(thing), [thing]);
  }
  return groups;
}
