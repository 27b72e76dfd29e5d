/** How the words of an answer are kept: one sentence for each reason, by its code. */
import type { Wording } from '../sentence/wording.ts';
import type { Reason } from '../why/answer.ts';

/** A reason as a sentence, and its figures beside their limits. */
export interface ReasonWords {
  readonly says: Wording;
  readonly figures?: string;
}

export type ReasonSays = (reason: Reason) => ReasonWords;
