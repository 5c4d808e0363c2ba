// Where we are, from the part of the address after "#": #/plan/now?x=1 -> ["plan", "now"] and x.

export interface Place {
  parts: string[];
  query: URLSearchParams;
}

/** An address that somebody cut or mistyped still leads somewhere: "%" alone is itself. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

export function readHash(hash: string): Place {
  const [path = '', query = ''] = hash.replace(/^#\/?/, '').split('?');
  return {
    parts: path.split('/').filter(Boolean).map(decoded),
    query: new URLSearchParams(query),
  };
}

/** Names that an address lists: "in=tub-1,tub-2". */
export const namesIn = (query: URLSearchParams, key: string): string[] =>
  query.get(key)?.split(',').filter(Boolean) ?? [];

/** The pairing code an address brings along; null without one. */
export function codeIn(hash: string): string | null {
  const written = /^#pair=(.+)$/.exec(hash)?.[1];
  return written === undefined ? null : decoded(written).trim();
}
