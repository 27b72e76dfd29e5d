/** What a mutant is: one small change of one place in the product, and what became of it. */

export interface Place {
  /** from the root, with / */
  readonly path: string;
  /** offsets in the file's text */
  readonly start: number;
  readonly end: number;
}

export interface Mutant extends Place {
  readonly room: string;
  /** counted from 1 */
  readonly line: number;
  /** which kind of change */
  readonly mutator: string;
  readonly before: string;
  readonly after: string;
}

/** equivalent: no test noticed it, and none can */
export type Fate = 'killed' | 'timed out' | 'survived' | 'not covered' | 'equivalent';

export interface Verdict {
  readonly mutant: Mutant;
  readonly fate: Fate;
  /** of killed and timed out: the test that noticed */
  readonly by?: string;
  /** how many tests ran on it */
  readonly tests: number;
  /** tests that reach it and were left out, since they would have taken longer than a mutant may */
  readonly leftOut: number;
  readonly seconds: number;
}

/** The file's text with the mutant in it. */
export const mutated = (text: string, m: Place & { readonly after: string }): string =>
  text.slice(0, m.start) + m.after + text.slice(m.end);
