// What the server understands by the name of a kind.
import type { Meaning } from '../domain/kinds';
import { get } from './client';

const asked = new Map<string, Promise<Meaning>>();

/** Asked once for a text; what failed is asked again. */
export function meaningOf(kind: string): Promise<Meaning> {
  const before = asked.get(kind);
  if (before) return before;
  const answer = get('taxa', { like: kind }).then(({ meaning }) => meaning);
  asked.set(kind, answer);
  answer.catch(() => asked.delete(kind));
  return answer;
}
