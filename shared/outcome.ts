/** How an operation answers when it may not succeed: a value with the place, never an exception. */

export interface Failure {
  /** where: a path into the document, a line, a part, a tie point */
  readonly at: string;
  /** one clear sentence that names the place, the value and the cure */
  readonly says: string;
}

export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly failure: Failure };

export const done = <T>(value: T): Outcome<T> => ({ ok: true, value });
export const failed = (at: string, says: string): Outcome<never> => ({ ok: false, failure: { at, says } });
