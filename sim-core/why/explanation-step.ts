/** What a step of an explanation gives: its reasons in order, and the edits that might undo the cause, the likeliest first. */
import type { Change } from '../document/changes.ts';
import type { RuleContext } from '../findings/rule-context.ts';
import type { Simulation } from '../run/api.ts';
import type { Reason } from './answer.ts';

export interface CandidateFix extends Reason {
  readonly change: Change;
}

export interface ExplanationStep {
  readonly reasons: readonly Reason[];
  readonly fixes: readonly CandidateFix[];
}

/** What an explanation may look at. */
export interface ExplanationQuestion {
  readonly sim: Simulation;
  readonly scene: RuleContext;
}

export type Side = 'high' | 'low';

export const explanationStep = (reasons: readonly Reason[], fixes: readonly CandidateFix[] = []): ExplanationStep => ({ reasons, fixes });

/** First one thing, then what is behind it. */
export const because = (reason: Reason, cause: ExplanationStep): ExplanationStep => ({
  reasons: [reason, ...cause.reasons],
  fixes: cause.fixes,
});
