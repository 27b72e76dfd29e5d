/** Findings in words, and their fixes: both as their rule says. */

import type { Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { apply, type Change, join } from '../document/changes.ts';
import { type EditContext, editContext } from '../document/edits/edit-context.ts';
import type { Fix } from '../fixes/fix.ts';
import { partLookup } from '../parts/footprint-index.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { capital, listed, plain, type Sentence, say, withNames } from '../sentence/wording.ts';
import { RULES } from './catalogue.ts';
import type { Finding } from './finding.ts';
import { distinct, type Rule } from './rule.ts';

const BY_CODE: ReadonlyMap<string, Rule> = new Map(RULES.map((rule) => [rule.code, rule]));

function ruleOf({ code }: Pick<Finding, 'code'>): Rule {
  const rule = BY_CODE.get(code);
  if (!rule) throw new Error(`no rule ${code}`);
  return rule;
}

/** A sentence or a few: what is so, the figure, the limit, the cure. `plan`: the bench that the finding is about. */
export function sayFinding(finding: Pick<Finding, 'code' | 'data' | 'when' | 'alike'>, plan: Plan): Sentence {
  const [first = '', ...rest] = withNames(ruleOf(finding).message(finding.data), plan);
  const alike = finding.alike ?? [];
  const isSame = (f: Finding) => f.when === finding.when && wordsOf(f) === wordsOf(finding);
  const same = alike.filter(isSame).flatMap((f) => f.at.slice(0, 1));
  const near = alike.filter((f) => !isSame(f)).flatMap((f) => f.at.slice(0, 1));
  return [
    capital(first),
    ...rest,
    ...(same.length > 0 ? withNames(say` The same at ${listed(same)}.`, plan) : []),
    ...(finding.when === undefined ? [] : [` Seen with ${finding.when}.`]),
    ...(near.length > 0 ? withNames(say` Much the same at ${listed(near)}.`, plan) : []),
  ];
}

/** What the rule says, without the things' names. */
const wordsOf = (f: Pick<Finding, 'code' | 'data'>): string =>
  JSON.stringify(
    ruleOf(f)
      .message(f.data)
      .filter((piece) => typeof piece === 'string'),
  );

/** Figures within this share of each other are much the same; our choice. */
const NEAR = 0.2;

const figureOf = ({ data }: Finding): number => ('measured' in data && typeof data.measured === 'number' ? data.measured : Number.NaN);

/** The same but for figures close to each other, or seen at another setting: of two pins of one chip. */
function areNear(a: Finding, b: Finding): boolean {
  const [one, other] = [figureOf(a), figureOf(b)];
  const bare = (f: Finding) => wordsOf(f).replace(/[−\d][\d.,]*\s*[a-zµΩ]*/gi, '#');
  const pinOf = ({ at: [main] }: Finding) => (main?.kind === 'pin' ? main.id.split('.')[0] : undefined);
  const isClose = Math.abs(one - other) <= NEAR * Math.max(Math.abs(one), Math.abs(other));
  return (
    a.code === b.code && a.severity === b.severity && pinOf(a) !== undefined && pinOf(a) === pinOf(b) && isClose && bare(a) === bare(b)
  );
}

/**
 * Findings of which the same is to be said as one: of the same rule, as bad, in the same words but for the things' names, of pins only those of one chip;
 * and of pins also what differs by figures that are close to each other.
 */
export function groupAlike(findings: readonly Finding[]): readonly Finding[] {
  const groups = new Map<string, Finding[]>();
  for (const f of findings) {
    const [main] = f.at;
    const near = [...groups].find(([, [g]]) => g && areNear(g, f))?.[0];
    const key = JSON.stringify([f.code, f.severity, f.when, main?.kind, main?.kind === 'pin' ? main.id.split('.')[0] : '', wordsOf(f)]);
    groups.set(near ?? key, [...(groups.get(near ?? key) ?? []), f]);
  }
  return [...groups.values()].flatMap(([first, ...alike]) => {
    if (!first) return [];
    if (alike.length === 0) return [first];
    // the same thing twice is two sentences
    const mains = new Set([first, ...alike].map((f) => f.at[0]?.id));
    if (mains.size <= alike.length) return [first, ...alike];
    return [{ ...first, at: distinct([first, ...alike].flatMap((f) => f.at)), alike }];
  });
}

/** Fixes of this finding on this bench, the best first: each of one act, at all of those that are alike. */
export function fixesFor(finding: Finding, circuit: Circuit): readonly Fix[] {
  const rule = ruleOf(finding);
  const context: EditContext = { plan: circuit.plan, layout: circuit.layout, kinds: partLookup };
  const own = rule.fixes?.(finding.data, { circuit, context }) ?? [];
  const others = finding.alike ?? [];
  return own.flatMap((fix, place) => {
    let now = context;
    let all: Change | undefined = fix.change;
    for (const { data } of others) {
      const after: Outcome<EditContext> | undefined = all && editContext(apply(context.plan, all), partLookup);
      now = after?.ok ? after.value : now;
      const next: Change | undefined = rule.fixes?.(data, { circuit, context: now })[place]?.change;
      all = all && next && after?.ok ? join(all, next) : undefined;
    }
    if (others.length === 0 || !all) return [fix];
    return [{ says: say`${fix.says}, and the same at ${others.length} more`, change: all }];
  });
}

/** A fix in the words of its button: "Add 330 Ω in series with LED4" */
export const fixText = ({ says }: Fix, plan: Plan): string => plain(withNames(says, plan));
