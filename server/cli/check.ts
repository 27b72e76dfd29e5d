/** `check PLAN` in words, and its exit code. */
import { SEVERITY_NAMES } from '../../sim-core/index.ts';
import type { Checked } from '../check/check-plan.ts';

/** 0: no damage risk and no fault; 1: one at least. */
export const codeOf = (findings: Checked['findings']): 0 | 1 =>
  findings.some((f) => f.severity === 'damage-risk' || f.severity === 'fault') ? 1 : 0;

/** One line a finding: its severity, the sentence, its code. */
export const sayFindings = (findings: Checked['findings']): string =>
  findings.length === 0 ? 'Nothing found.' : findings.map((f) => `${SEVERITY_NAMES[f.severity]}: ${f.says} [${f.code}]`).join('\n');
