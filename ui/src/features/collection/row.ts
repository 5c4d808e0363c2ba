// One row of a table: what each cell says, and what in it is not understood.
import { typedCelsius, typedPercent, readNumber, whyNot, type Typed } from '../../format';
import { words } from '../../words/en';
import type { Field, Matching } from './columns';
import { readDay, type Order } from './days';
import { cellMass, type Marks } from './figures';

const t = words.importing.problem;
const yes = /^(1|y|yes|true|x)$/i;
const materials = new Map([
  ['sealed', 'sealed'],
  ['plastic', 'sealed'],
  ['glass', 'sealed'],
  ['pvc', 'sealed'],
  ['porous', 'porous'],
  ['wood', 'porous'],
] as const);
const substrates = new Map([
  ['paper', 'paper'],
  ['loose', 'loose'],
  ['none', 'none'],
  ['bare', 'none'],
  ['newspaper', 'paper'],
  ['bark', 'loose'],
  ['aspen', 'loose'],
  ['soil', 'loose'],
] as const);

/** What holds for a whole file. */
export interface Manner {
  order: Order | null;
  marks: Marks;
  massUnit: string;
  today: string;
}

export class Row {
  /** Why the row is left out. */
  readonly problems: string[] = [];
  /** Cells that are left out; the rest of the row is taken. */
  readonly dropped: { field: Field; text: string }[] = [];

  constructor(
    private readonly cells: readonly string[],
    private readonly matching: Matching,
    private readonly manner: Manner,
  ) {}

  text(field: Field): string {
    const at = this.matching[field];
    return at === undefined ? '' : (this.cells[at] ?? '').trim();
  }

  /** What the cell says, or `otherwise` where it says nothing. */
  isYes(field: Field, otherwise = false): boolean {
    const text = this.text(field);
    return text === '' ? otherwise : yes.test(text);
  }

  weight(): number | undefined {
    return this.read('weight', (text) => cellMass(text, this.manner.marks, this.manner.massUnit));
  }

  celsius(field: Field): number | undefined {
    return this.read(field, (text) => typedCelsius(text, 'C'));
  }

  percent(field: Field): number | undefined {
    return this.read(field, typedPercent);
  }

  area(field: Field): number | undefined {
    return this.read(field, (text) => {
      const number = text.replace(/\s*(cm2|cm²)$/i, '');
      return { value: readNumber(number), why: whyNot(number) };
    });
  }

  day(field: Field): string | undefined {
    const text = this.text(field);
    if (!text) return undefined;
    const day = readDay(text, this.manner.order);
    if (day === null) this.drop(field, t.day(text));
    else if (day > this.manner.today) this.drop(field, t.future(text));
    else return day;
    return undefined;
  }

  material(): (typeof materials extends ReadonlyMap<string, infer T> ? T : never) | undefined {
    return this.choice('material', materials);
  }

  substrate(): (typeof substrates extends ReadonlyMap<string, infer T> ? T : never) | undefined {
    return this.choice('substrate', substrates);
  }

  private choice<T>(field: Field, choices: ReadonlyMap<string, T>): T | undefined {
    const text = this.text(field);
    const found = choices.get(text.toLowerCase());
    if (text && found === undefined) this.drop(field, t.choice(text));
    return found;
  }

  private read(field: Field, reader: (text: string) => Typed): number | undefined {
    const text = this.text(field);
    if (!text) return undefined;
    const { value, why } = reader(text);
    if (why) this.drop(field, why);
    return value ?? undefined;
  }

  private drop(field: Field, why: string): void {
    this.dropped.push({ field, text: t.dropped(words.importing.fields[field], why) });
  }
}
