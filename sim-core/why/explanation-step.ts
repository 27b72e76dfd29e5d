/** What a step of an explanation gives: its reasons in order, and the edits that might undo the cause, the likeliest first. */
import type { PlanPart } from '../../shared/plan.ts';
import type { Leg } from '../board/layout.ts';
import type { Change } from '../document/changes.ts';
import { replacing } from '../document/memory-writes.ts';
import type { RuleContext } from '../findings/rule-context.ts';
import type { Simulation } from '../run/api.ts';
import type { Look, Reason } from './answer.ts';

export interface CandidateFix extends Reason {
  readonly change: Change;
  /** what is so if the edit proves right, and is not said otherwise */
  readonly claims?: Reason;
}

export interface ExplanationStep {
  readonly reasons: readonly Reason[];
  readonly fixes: readonly CandidateFix[];
}

/** What an explanation may look at. */
export interface ExplanationQuestion {
  readonly sim: Simulation;
  readonly scene: RuleContext;
  /** outputs that the chain of causes has passed: none is asked twice */
  readonly asked: readonly Leg[];
  /** the LED that was asked about, and how the table wants it where the switches stand */
  readonly led?: string;
  readonly wants?: Look | undefined;
  /** does it look so? */
  readonly isRight?: boolean;
}

export type Side = 'high' | 'low';

export const explanationStep = (reasons: readonly Reason[], fixes: readonly CandidateFix[] = []): ExplanationStep => ({ reasons, fixes });

/** One edit of a part of the plan. */
export const replacedPart = (
  code: string,
  at: CandidateFix['at'],
  data: CandidateFix['data'],
  before: PlanPart,
  after: PlanPart,
): CandidateFix => ({ code, at, data, change: { op: 'replace', list: 'parts', before, after } });

/** A new part of the same kind in the place of a damaged one. */
export const newPart = ({ sim }: ExplanationQuestion, part: PlanPart): CandidateFix => ({
  code: 'replace',
  at: [{ kind: 'part', id: part.id }],
  data: {},
  change: replacing(sim.plan(), part),
});

/** First one thing, then what is behind it. */
export const because = (reason: Reason, cause: ExplanationStep): ExplanationStep => ({
  reasons: [reason, ...cause.reasons],
  fixes: cause.fixes,
});
