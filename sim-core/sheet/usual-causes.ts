/** Why a check fails: the mistakes of its stage with which the simulated bench fails it too, each with what it would show then, and what undoes it. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { apply, type Change, invert } from '../document/changes.ts';
import { FAULT_KINDS } from '../faults/catalogue.ts';
import { type Fault, faultsOf } from '../faults/fault.ts';
import { faultBench } from '../faults/fault-bench.ts';
import { buildCircuit } from '../run/circuit/circuit.ts';
import { sayRepair } from '../text/repairs.ts';
import { readCheck } from './meter-reading.ts';
import { type CheckReading, passes, type StageCheck } from './stage-check.ts';
import { benchAfter, STAGES, type StageName, type StageOfThing, stagesOfThings } from './stages.ts';

/** One mistake with which the check fails. */
export interface UsualCause {
  /** of the catalogue: 'wire-row-off' */
  readonly kind: string;
  /** what undoes it, as a sentence */
  readonly says: string;
  /** what the check shows with it on the simulated bench */
  readonly shows: CheckReading;
  /** that is what was read */
  readonly fits: boolean;
}

/** More than a person tries one after the other. */
const MOST = 4;
/** Readings that are so near are one: a meter's error and a resistor's tolerance. Our choice. */
const NEAR = 0.12;

/**
 * The likeliest first; those that show what was read before all others. read: what came of the check, if that is known. progress: called with 0 to 1.
 * Fails with `plan/…`.
 */
export function usualCauses(
  plan: Plan,
  check: StageCheck,
  read?: CheckReading,
  progress: (part: number) => void = () => {},
): Outcome<readonly UsualCause[]> {
  const circuit = buildCircuit(plan);
  if (!circuit.ok) return circuit;
  const bench = faultBench(plan);
  if (!bench.ok) return bench;
  const stages = stagesOfThings(circuit.value);
  const candidates = faultsOf(
    bench.value,
    FAULT_KINDS.filter((k) => k.of === 'wiring'),
  )
    .filter((f) => stageOfFault(f, stages) === check.stage)
    .sort((a, b) => b.prior - a.prior);
  const found: UsualCause[] = [];
  const said = new Set<string>();
  for (const [i, fault] of candidates.entries()) {
    progress(i / candidates.length);
    const faulty = apply(plan, fault.change);
    const shows = readCheck(benchAfter(faulty, stages, check.stage), check);
    if (!shows.ok || passes(check, shows.value)) continue;
    const says = sayRepair(invert(fault.change), faulty);
    if (said.has(says)) continue;
    said.add(says);
    found.push({ kind: fault.kind, says, shows: shows.value, fits: read !== undefined && isNear(shows.value, read) });
    if (read === undefined ? found.length >= MOST : found.filter((c) => c.fits).length >= MOST) break;
  }
  return done([...found.filter((c) => c.fits), ...found.filter((c) => !c.fits)].slice(0, MOST));
}

function isNear(a: CheckReading, b: CheckReading): boolean {
  if (typeof a !== 'number' || typeof b !== 'number') return String(a) === String(b);
  if (a === b) return true;
  if (!Number.isFinite(a) || !Number.isFinite(b)) return false;
  return Math.abs(a - b) <= NEAR * Math.max(Math.abs(a), Math.abs(b));
}

/** Ids of things that a change touches. */
function touchedBy(change: Change): readonly string[] {
  if (change.op === 'all') return change.changes.flatMap(touchedBy);
  if (change.op === 'replace') return [change.after.id];
  if (change.op === 'insert' || change.op === 'remove') return [change.item.id];
  return 'id' in change ? [change.id] : [];
}

/** The stage in which a mistake is made: that of the first thing that it touches; of a wire or board that no stage has, that of the last part beside it. */
export function stageOfFault(fault: Fault, stages: StageOfThing): StageName {
  const known = touchedBy(fault.change).flatMap((id) => stages.get(id) ?? []);
  const first = STAGES.find((s) => known.includes(s));
  if (first) return first;
  const beside = [...fault.things, ...fault.places].flatMap((r) => stages.get(r.id.split('.')[0] ?? '') ?? []);
  return STAGES.findLast((s) => s !== 'chips' && beside.includes(s)) ?? 'power';
}
