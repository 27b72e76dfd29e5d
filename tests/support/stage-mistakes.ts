/** Mistakes of the catalogue planted in the stage in which a person makes them, and whether a check of that stage, or of a later one, fails for them. */
import type { Plan } from '../../shared/plan.ts';
import { FAULT_KINDS } from '../../sim-core/faults/catalogue.ts';
import { type Fault, faultsOf } from '../../sim-core/faults/fault.ts';
import { faultBench } from '../../sim-core/faults/fault-bench.ts';
import { apply, buildCircuit, stageChecks } from '../../sim-core/index.ts';
import { pushButton } from '../../sim-core/parts/push-button.ts';
import { circuitKey } from '../../sim-core/run/circuit/circuit-key.ts';
import { readCheck } from '../../sim-core/sheet/meter-reading.ts';
import { passes, type StageCheck } from '../../sim-core/sheet/stage-check.ts';
import { benchAfter, STAGES, type StageName, type StageOfThing, stagesOfThings } from '../../sim-core/sheet/stages.ts';
import { stageOfFault } from '../../sim-core/sheet/usual-causes.ts';
import { makeRandom } from '../../sim-core/units/random.ts';

export interface StageMistake {
  readonly kind: string;
  readonly id: string;
  /** where it is made, and where a check fails for it, if any does */
  readonly stage: StageName;
  readonly caught?: StageName;
}

/** most: so many of a kind on this bench, drawn by chance. */
export function plantInStages(
  plan: Plan,
  most: number,
  seed: number,
  kinds = FAULT_KINDS.filter((k) => k.of === 'wiring'),
): StageMistake[] {
  const [bench, circuit, checks] = [faultBench(plan), buildCircuit(plan), stageChecks(plan)];
  if (!bench.ok || !circuit.ok || !checks.ok) throw new Error('a bench that is no bench');
  const stages = stagesOfThings(circuit.value);
  const random = makeRandom(seed);
  return kinds.flatMap((kind) => {
    const all = faultsOf(bench.value, [kind]).filter((f) => changesSomething(plan, f));
    const some = all.length <= most ? all : Array.from({ length: most }, () => all[Math.floor(random() * all.length)] as Fault);
    return some.map((fault): StageMistake => {
      const stage = stageOfFault(fault, stages);
      const caught = STAGES.slice(STAGES.indexOf(stage)).find((s) => fails(apply(plan, fault.change), stages, s, checks.value));
      return { kind: fault.kind, id: fault.id, stage, ...(caught ? { caught } : {}) };
    });
  });
}

/** Nothing of what is fitted last is looked at before: two plans with the same circuit are one bench. */
function changesSomething(plan: Plan, { change, kind, things }: Fault): boolean {
  // a button is the same end for end: its legs face their like
  if (kind === 'switch-rotated' && plan.parts.some((p) => p.id === things[0]?.id && p.kind === pushButton.id)) return false;
  const [is, was] = [circuitKey(apply(plan, change)), circuitKey(plan)];
  return is.ok && was.ok && is.value !== was.value;
}

function fails(plan: Plan, stages: StageOfThing, stage: StageName, checks: readonly StageCheck[]): boolean {
  const bench = benchAfter(plan, stages, stage);
  return checks
    .filter((c) => c.stage === stage)
    .some((check) => {
      const reading = readCheck(bench, check);
      return !reading.ok || !passes(check, reading.value);
    });
}
