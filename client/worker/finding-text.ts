/** Findings in words, with their cures: worked out once as long as the bench stands as it does, and steady where it changes by itself. */
import { type Circuit, type Finding, fixesFor, fixText, groupAlike, sayFinding } from '../../sim-core/index.ts';
import type { SaidFinding } from './protocol.ts';

/** So many findings offer fixes, the worst first; the others have them once these are fixed. */
const MOST_FIXED = 24;
/** A bench that changes by itself loses a finding only when it has not been found so many times in a row. */
const MISSES = 2;

export interface FindingTexts {
  /** Yields after each finding. byItself: no hand has done anything since the last time */
  say(findings: readonly Finding[], circuit: Circuit, byItself: boolean): Generator<void, readonly SaidFinding[]>;
}

export function makeFindingTexts(): FindingTexts {
  let nets: Circuit['nets'] | undefined;
  let fixes = new Map<string, SaidFinding['fixes']>();
  let before: ReadonlyArray<{ readonly said: SaidFinding; readonly missed: number }> = [];
  const fixesOf = (f: Finding, circuit: Circuit): SaidFinding['fixes'] => {
    const key = JSON.stringify(f);
    const found = fixes.get(key) ?? fixesFor(f, circuit).map((c) => ({ says: fixText(c, circuit.plan), change: c.change }));
    fixes.set(key, found);
    return found;
  };
  return {
    *say(findings, circuit, byItself) {
      if (circuit.nets !== nets) [nets, fixes] = [circuit.nets, new Map()];
      const now: SaidFinding[] = [];
      for (const [i, f] of groupAlike(findings).entries()) {
        const [at] = f.at;
        now.push({
          key: f.key,
          code: f.code,
          severity: f.severity,
          at,
          also: (f.alike ?? []).flatMap((a) => a.at.slice(0, 1)),
          says: sayFinding(f, circuit.plan),
          fixes: i < MOST_FIXED ? fixesOf(f, circuit) : [],
        });
        yield;
      }
      const keys = new Set(now.map((f) => f.key));
      const held = byItself ? before.filter((b) => !keys.has(b.said.key) && b.missed < MISSES) : [];
      before = [...now.map((said) => ({ said, missed: 0 })), ...held.map((b) => ({ said: b.said, missed: b.missed + 1 }))];
      return before.map((b) => b.said);
    },
  };
}
