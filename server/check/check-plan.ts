/** One check, from a plan to its findings in words. */
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { type BenchCheck, checkBench, done, type Finding, groupAlike, type Outcome, plain, sayFinding } from '../../sim-core/index.ts';

/** A finding with its sentence. */
export type CheckedFinding = Omit<Finding, 'key' | 'alike'> & { readonly says: string };

export interface Checked extends Pick<BenchCheck, 'rows' | 'off'> {
  readonly findings: readonly CheckedFinding[];
}

export function checkPlan(plan: Plan): Outcome<Checked> {
  const checked = checkBench(plan);
  return checked.ok ? done({ ...checked.value, findings: sayAll(checked.value.findings, plan) }) : checked;
}

export function checkText(text: string): Outcome<Checked> {
  const plan = readPlan(text);
  return plan.ok ? checkPlan(plan.value) : plan;
}

export const sayAll = (findings: readonly Finding[], plan: Plan): Checked['findings'] =>
  groupAlike(findings).map(({ key, alike, ...f }) => ({ ...f, says: plain(sayFinding({ ...f, ...(alike ? { alike } : {}) }, plan)) }));
