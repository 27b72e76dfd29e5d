/** How an operation answers when it may not succeed: a value, or a failure with its code, the place and a sentence; never an exception. */
import type { FailureCode } from './failure-codes.ts';

/** An operation that could not be done: which kind it is, where, and one sentence. */
export interface Failure {
  /** the kind of failure */
  readonly code: FailureCode;
  /** where: a path into the document, a line, a part, a tie point */
  readonly at: string;
  /** one clear sentence that names the place, the value and the cure */
  readonly says: string;
}

/** A value, or why there is none; never an exception. */
export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly failure: Failure };

/** The answer of an operation that succeeded. */
export const done = <T>(value: T): Outcome<T> => ({ ok: true, value });

/** The answer of an operation that failed: its code, the place (of the plan, the text, the request; '' if there is none) and one sentence with the cure. */
export const failed = (code: FailureCode, at: string, says: string): Outcome<never> => ({ ok: false, failure: { code, at, says } });
