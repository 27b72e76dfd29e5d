/** What a step of an explanation gives: its reasons in order, and the edits that might undo the cause, the likeliest first. */
import type { Change } from '../document/changes.ts';
import type { RuleContext } from '../findings/rule-context.ts';
import type { Simulation } from '../run/api.ts';
import type { Reason } from './answer.ts';

export interface Mend extends Reason {
  readonly change: Change;
}

export interface ExplanationStep {
  readonly reasons: readonly Reason[];
  readonly mends: readonly Mend[];
}

/** What an explanation may look at. */
export interface ExplanationQuestion {
  readonly sim: Simulation;
  readonly scene: RuleContext;
}

export type Side = 'high' | 'low';

export const explanationStep = (reasons: readonly Reason[], mends: readonly Mend[] = []): ExplanationStep => ({ reasons, mends });

/** First one thing, then what is behind it. */
export const because = (reason: Reason, behind: ExplanationStep): ExplanationStep => ({
  reasons: [reason, ...behind.reasons],
  mends: behind.mends,
});
