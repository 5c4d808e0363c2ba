// The place we are at, and ways to another.
import { codeIn, readHash } from '../domain/place';

class Route {
  hash = $state(location.hash);
  readonly place = $derived(readHash(this.hash));
  readonly code = $derived(codeIn(this.hash));

  constructor() {
    addEventListener('hashchange', () => (this.hash = location.hash));
  }

  /** The name of the screen; the empty one is the situation. */
  get screen(): string {
    return this.place.parts[0] ?? '';
  }

  part(index: number): string | undefined {
    return this.place.parts[index];
  }
}

export const route = new Route();

export const link = (...parts: string[]): string => `#/${parts.map(encodeURIComponent).join('/')}`;

export function go(...parts: string[]): void {
  location.hash = link(...parts);
}

/** For an answer that takes its time: leads on from the screen of now, and nowhere if its reader left it first. */
export function fromHere(): (...parts: string[]) => void {
  const here = location.hash;
  return (...parts) => {
    if (location.hash === here) go(...parts);
  };
}
