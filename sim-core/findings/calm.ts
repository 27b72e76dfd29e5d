/** What is left of all findings for people: nothing of a part before it is wired, each once, causes before what they lead to, the worst first. */
import type { Circuit } from '../run/circuit/circuit.ts';
import { RULES } from './catalogue.ts';
import { type Finding, SEVERITIES } from './finding.ts';
import { merged, ranked } from './ranking.ts';
import type { Rule } from './rule.ts';
import { unwiredParts } from './unwired-parts.ts';

const codesOf = (role: Rule['role']): ReadonlySet<string> => new Set(RULES.filter((r) => r.role === role).map((r) => r.code));
const CAUSES = codesOf('cause');
const EFFECTS = codesOf('effect');
const OF_UNWIRED = codesOf('unwired');

/** Ordered as `ranked` says. */
export function calm(circuit: Circuit, findings: readonly Finding[]): Finding[] {
  const unwired = new Set(unwiredParts(circuit).map((p) => p.part.id));
  const wired = findings.filter((f) => OF_UNWIRED.has(f.code) || !unwired.has(partOf(f)));
  const isCaused = wired.some((f) => CAUSES.has(f.code));
  return ranked(asBadAsTheirEffects(merged(isCaused ? wired.filter((f) => !EFFECTS.has(f.code)) : wired)), CAUSES);
}

/** The part that a finding is about: of a pin or an LED inside, its part. */
const partOf = ({ at: [first] }: Finding): string => first?.id.split('.')[0] ?? '';

/** A chip that has no supply, or a rail without one, is as bad as the current that it sends through a chip's pins. */
function asBadAsTheirEffects(findings: readonly Finding[]): readonly Finding[] {
  const bad = findings.filter((f) => !CAUSES.has(f.code) && f.at[0]?.kind === 'pin');
  return findings.map((cause) => {
    if (!CAUSES.has(cause.code)) return cause;
    const parts = new Set(cause.at.map((r) => r.id.split('.')[0]));
    const worst = Math.min(
      SEVERITIES.indexOf(cause.severity),
      ...bad.filter((f) => parts.has(partOf(f))).map((f) => SEVERITIES.indexOf(f.severity)),
    );
    return { ...cause, severity: SEVERITIES[worst] ?? cause.severity };
  });
}
