// What the core says to people.

type Reading =
  | 'at'
  | 'charAt'
  | 'endsWith'
  | 'includes'
  | 'indexOf'
  | 'lastIndexOf'
  | 'match'
  | 'matchAll'
  | 'replace'
  | 'replaceAll'
  | 'search'
  | 'slice'
  | 'split'
  | 'startsWith'
  | 'substring';

/** A text that is shown as it is. Nothing is read out of it, so that it may be reworded: what a page needs to know
    stands in a field of its own. None of the methods that look into a text can be called. */
export type Sentence = string & { readonly [Method in Reading]: never };
