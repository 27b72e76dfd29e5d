/** How an operation answers when it may not succeed: a value with a code, the place and a sentence, never an exception. */
import type { FailureCode } from './failure-codes.ts';

export interface Failure {
  /** the kind of failure; absent: not sorted yet */
  readonly code?: FailureCode;
  /** where: a path into the document, a line, a part, a tie point */
  readonly at: string;
  /** one clear sentence that names the place, the value and the cure */
  readonly says: string;
}

export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly failure: Failure };

export const done = <T>(value: T): Outcome<T> => ({ ok: true, value });

/** `code` names the kind of failure, `at` the place, `says` is the whole sentence. Without a code: for places that have none yet. */
export function failed(code: FailureCode | undefined, at: string, says: string): Outcome<never>;
export function failed(at: string, says: string): Outcome<never>;
export function failed(...words: [FailureCode | undefined, string, string] | [string, string]): Outcome<never> {
  if (words.length === 2) return { ok: false, failure: { at: words[0], says: words[1] } };
  const [code, at, says] = words;
  return { ok: false, failure: { ...(code && { code }), at, says } };
}
