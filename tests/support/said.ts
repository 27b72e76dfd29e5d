/** What the rules say of a bench in short: how bad, which rule, where, and every figure and name in its sentence, whatever the words between. */

import type { Plan } from '../../shared/plan.ts';
import { type Finding, plain, SEVERITIES, sayFinding } from '../../sim-core/index.ts';

/** 'chip/no-supply U1 U1.24', and for the figures what of the sentence has a digit in it, units along. */
export function inShort(f: Finding, plan: Plan): string {
  const figures = plain(sayFinding(f, plan)).match(FIGURE) ?? [];
  return `${SEVERITIES.indexOf(f.severity)} ${f.code} ${f.at.map((r) => r.id).join(' ')} | ${figures.map((t) => t.replace(/[.,:;]$/, '')).join(', ')}`;
}

const FIGURE = /[^\s()]*\d[^\s()]*(?: (?:[µnpmkM]?(?:A|V|W|F|s|Ω)|ohm|kohm|Mohm|%|times)(?=[\s.,;:)]|$))?/g;
