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
export function failed(code: FailureCode, at: string, says: string): Outcome<never>;
/** For the lines of the text notation, whose place the reader of the whole text adds. */
export function failed(at: '', says: string): Outcome<never>;
/** The answer of an operation that could not be done: its code, the place and one sentence that names place, value and cure. */
export function failed(...words: [FailureCode, string, string] | ['', string]): Outcome<never> {
  if (words.length === 2) return { ok: false, failure: { code: 'text/bad-line', at: words[0], says: words[1] } };
  const [code, at, says] = words;
  return { ok: false, failure: { code, at, says } };
}
