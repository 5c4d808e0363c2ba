// What the core might say.
import type { Sentence } from '../src/contract/sentence';

export const said = (text: string): Sentence => text as Sentence;
