// The kinds of a table: how each is understood, and what the keeper says where it may be several.
import { meaningOf } from '../../api/meaning';
import { fullName, keyOf, type Meaning } from '../../domain/kinds';

const atOnce = 6;

export class NamedKinds {
  private meanings = $state.raw<ReadonlyMap<string, Meaning>>(new Map());
  private chosen = $state.raw<ReadonlyMap<string, string>>(new Map());

  /** What is written goes on record by this name. */
  name(written: string): string {
    const key = keyOf(written);
    return this.chosen.get(key) ?? fullName(written, this.meanings.get(key));
  }

  meaning(written: string): Meaning | undefined {
    return this.meanings.get(keyOf(written));
  }

  choice(written: string): string | null {
    return this.chosen.get(keyOf(written)) ?? null;
  }

  choose(written: string, name: string): void {
    this.chosen = new Map(this.chosen).set(keyOf(written), name);
  }

  /** Whether every one is understood, known not to be known, or answered. */
  isSettled(kinds: readonly string[]): boolean {
    return kinds.every((one) => {
      const how = this.meaning(one)?.how;
      return how === 'several' ? this.choice(one) !== null : how !== undefined;
    });
  }

  /** Looks up those not yet known; what cannot be asked is asked again next time. */
  async look(kinds: readonly string[]): Promise<void> {
    const open = kinds.filter((one) => this.meaning(one) === undefined);
    for (let at = 0; at < open.length; at += atOnce) {
      const found = await Promise.all(
        open.slice(at, at + atOnce).map(async (one) => [keyOf(one), await meaningOf(one)] as const),
      );
      this.meanings = new Map([...this.meanings, ...found]);
    }
  }
}
