/** One check, from the text of a plan to its findings in words: read, rehearse, say. */
import { readPlan } from '../../shared/read-plan.ts';
import { type Finding, plain, rehearse, sayFinding } from '../../sim-core/index.ts';
import { done, type Outcome } from '../../sim-core/outcome.ts';

export interface CheckedFinding extends Finding {
  readonly says: string;
}

export interface Checked {
  readonly findings: readonly CheckedFinding[];
}

export function checkPlan(text: string): Outcome<Checked> {
  const plan = readPlan(text);
  if (!plan.ok) return plan;
  const findings = rehearse(plan.value);
  if (!findings.ok) return findings;
  return done({ findings: findings.value.map((f) => ({ ...f, says: plain(sayFinding(f, plan.value)) })) });
}
