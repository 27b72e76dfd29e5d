/** Findings in words, and their fixes: both as their rule says. */
import type { Plan } from '../../shared/plan.ts';
import type { Fix } from '../fixes/fix.ts';
import { partLookup } from '../parts/footprint-index.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { capital, plain, type Sentence, withNames } from '../sentence/wording.ts';
import { RULES } from './catalogue.ts';
import type { Finding } from './finding.ts';
import type { Rule } from './rule.ts';

const BY_CODE: ReadonlyMap<string, Rule> = new Map(RULES.map((rule) => [rule.code, rule]));

function ruleOf({ code }: Pick<Finding, 'code'>): Rule {
  const rule = BY_CODE.get(code);
  if (!rule) throw new Error(`no rule ${code}`);
  return rule;
}

/** A sentence or a few: what is so, the figure, the limit, the cure. `plan`: the bench that the finding is about. */
export function sayFinding(finding: Pick<Finding, 'code' | 'data' | 'when'>, plan: Plan): Sentence {
  const [first = '', ...rest] = withNames(ruleOf(finding).message(finding.data), plan);
  return [capital(first), ...rest, ...(finding.when === undefined ? [] : [` Seen with ${finding.when}.`])];
}

/** Fixes of this finding on this bench, the best first. */
export const fixesFor = (finding: Finding, circuit: Circuit): readonly Fix[] =>
  ruleOf(finding).fixes?.(finding.data, { circuit, context: { plan: circuit.plan, layout: circuit.layout, kinds: partLookup } }) ?? [];

/** A fix in the words of its button: "Add 330 Ω in series with LED4" */
export const fixText = ({ says }: Fix, plan: Plan): string => plain(withNames(says, plan));
