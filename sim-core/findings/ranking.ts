/** The order of findings, and which of two alike is the worse: by severity, causes first, then by code, then by place as a person counts (D2 before D10). */
import { compareCounting, compareTexts } from '../units/text-list.ts';
import { type Finding, SEVERITIES } from './finding.ts';

/** causes: codes of what other findings follow from */
export function ranked(findings: readonly Finding[], causes: ReadonlySet<string> = new Set()): Finding[] {
  return [...findings].sort(
    (a, b) =>
      SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity) ||
      Number(causes.has(b.code)) - Number(causes.has(a.code)) ||
      compareTexts(a.code, b.code) ||
      compareCounting(place(a), place(b)),
  );
}

/** One finding of each key; the worse of two stays. */
export function merged(findings: readonly Finding[]): Finding[] {
  const worst = new Map<string, Finding>();
  for (const f of findings) {
    const before = worst.get(f.key);
    if (!before || worse(f, before)) worst.set(f.key, f);
  }
  return [...worst.values()];
}

/** Figures within this share of each other count as alike, and the one found first stays: the plan's own setting before any other. */
const ALIKE = 0.01;

function worse(a: Finding, b: Finding): boolean {
  const bySeverity = SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity);
  return bySeverity < 0 || (bySeverity === 0 && miss(a) > miss(b) * (1 + ALIKE));
}

/** How far a figure is beyond its limit, in its own unit. */
const miss = ({ data }: Finding): number =>
  'measured' in data && 'limit' in data && typeof data.measured === 'number' && typeof data.limit === 'number'
    ? Math.abs(data.measured - data.limit)
    : 0;

const place = (f: Finding): string => f.at.map((r) => r.id).join(' ');
