/** The search for the edit that puts the table right, begun with what the chain of causes names: what it finds to be so, and what else would do it. */
import { faultBench } from '../faults/fault-bench.ts';
import { candidateOf, type RepairCandidate } from '../repair/candidate.ts';
import { EditTrial, poweredBench } from '../repair/edit-trial.ts';
import { RepairSearch } from '../repair/search.ts';
import type { Reason } from './answer.ts';
import type { CandidateFix, ExplanationQuestion } from './explanation-step.ts';
import type { Intention } from './intention.ts';
import { repairFix } from './repair-claims.ts';

/** The edit that makes every row right, and what the others would find to be so. */
export interface Verdict {
  readonly fix: CandidateFix;
  readonly rows: { readonly was: number; readonly right: number; readonly of: number; readonly all: number };
  readonly instead: readonly Reason[];
}

/** How likely a fix of the chain is beside all of the catalogue, the first one and each after it; measured on planted mistakes. */
const OF_CHAIN = 20;
const NEXT = 0.8;

/** What undoes the difference from the bench as meant that carries what the LED shows comes before all. */
const MEANT = 1e6;

/** meant: what undoes such a difference. undefined: no single edit makes every row right that is tried. Yields between two tries. */
export function* verdictOf(
  q: ExplanationQuestion,
  intention: Intention,
  fixes: readonly CandidateFix[],
  meant: readonly CandidateFix[],
): Generator<undefined, Verdict | undefined> {
  const bench = faultBench(q.sim.plan());
  const base = poweredBench(q.sim);
  if (!bench.ok || !base) return undefined;
  const trial = new EditTrial(base, intention);
  const own = new Map<RepairCandidate, CandidateFix>();
  const add = (fix: CandidateFix, prior: number) => void own.set(candidateOf(fix.code, fix.change, prior), fix);
  for (const fix of meant) add(fix, MEANT);
  for (const [i, fix] of fixes.entries()) add(fix, OF_CHAIN * NEXT ** i);
  const search = new RepairSearch(bench.value, trial, () => [...own.keys()]).turns();
  let found = search.next();
  for (; !found.done; found = search.next()) yield;
  const { repairs, wrong } = found.value;
  const [best, ...others] = repairs.map((r): CandidateFix => own.get(r) ?? repairFix(bench.value, r));
  if (!best) return undefined;
  const of = trial.rows.length;
  const all = 2 ** intention.inputs.length;
  const first = new Set([...(best.claims?.at ?? []), ...(repairs[0]?.things ?? [])].map((ref) => ref.id));
  const instead = others.flatMap(({ claims }): Reason[] => {
    if (!claims || claims.at.every((ref) => first.has(ref.id))) return [];
    return [{ ...claims, data: { ...claims.data, everyRow: of === all ? 1 : 0 } }];
  });
  return { fix: best, rows: { was: of - wrong, right: of, of, all }, instead };
}
