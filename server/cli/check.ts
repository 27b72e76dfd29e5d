/** `check PLAN`: the findings of a dry run, in words. */
import { grouped, SEVERITY_NAMES, sayTriedOn } from '../../sim-core/index.ts';
import { type Checked, checkPlan } from '../check/check-plan.ts';
import { answer, type ShellCommand } from './command.ts';
import { findPlan } from './plan-file.ts';

export const CHECK: ShellCommand = {
  name: 'check',
  means:
    'switch the supply on, press every button, go through the truth table and list the findings; exit code 1 on a damage risk or a fault',
  takes: 'PLAN',
  options: {},
  run({ words: [name = ''] }) {
    const plan = findPlan(name);
    if (!plan.ok) return plan;
    return answer(
      checkPlan(plan.value),
      ({ findings, rows, off = [] }) =>
        [...(off.length > 0 ? [sayTriedOn(off)] : []), sayFindings(findings), ...sayTried(findings, rows)].join('\n'),
      ({ findings }) => (findings.some((f) => f.severity === 'damage-risk' || f.severity === 'fault') ? 1 : 0),
    );
  },
};

/** One line a finding: its severity, the sentence, its code. */
export const sayFindings = (findings: Checked['findings']): string =>
  findings.length === 0 ? 'No problems found.' : findings.map((f) => `${SEVERITY_NAMES[f.severity]}: ${f.says} [${f.code}]`).join('\n');

/** Of the table no more than was tried. */
function sayTried(findings: Checked['findings'], rows: Checked['rows']): string[] {
  if (!rows) return [];
  const { tried, of } = rows;
  if (tried < of) return [`${grouped(tried)} of ${grouped(of)} rows of the table were tried.`];
  return findings.length === 0 ? [`All ${grouped(of)} rows of the table are right.`] : [];
}
