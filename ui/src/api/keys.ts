// Every request that writes carries a key of its own; sent again with it, it is answered and not done again.

/** Unlike any other; also where the page has no secure context, as on the home network. */
export function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** The keys of what was asked and not answered yet: asked once more, it is the same request. */
export class Keys {
  private readonly unanswered = new Map<string, string>();

  constructor(private readonly draw: () => string = newKey) {}

  of(what: string, body: object): string {
    const asked = `${what} ${JSON.stringify(body)}`;
    const key = this.unanswered.get(asked) ?? this.draw();
    this.unanswered.set(asked, key);
    return key;
  }

  /** It is done: the same asked again is meant again. */
  answered(what: string, body: object): void {
    this.unanswered.delete(`${what} ${JSON.stringify(body)}`);
  }
}
