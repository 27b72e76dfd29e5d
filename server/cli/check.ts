/** `check PLAN` in words, and its exit code. */
import type { Checked } from '../check/check-plan.ts';

/** 0: nothing harms and nothing is broken; 1: something is. */
export const codeOf = (findings: Checked['findings']): 0 | 1 =>
  findings.some((f) => f.severity === 'harm' || f.severity === 'broken') ? 1 : 0;

/** One line a finding, its severity first. */
export const sayFindings = (findings: Checked['findings']): string =>
  findings.length === 0 ? 'Nothing found.' : findings.map((f) => `${f.severity}: ${f.says}`).join('\n');
