/** Everything that belongs to one wiring of a running bench; rebuilt when a wire moves; chips that are unaffected keep their state. */
import type { Plan } from '../../shared/plan.ts';
import { FloatingInputs } from './analog/floating-inputs.ts';
import { TransientSolver } from './analog/transient-solver.ts';
import { UnknownOutputs } from './analog/unknown-outputs.ts';
import type { Circuit } from './circuit/circuit.ts';
import type { ContactSite } from './circuit/sites.ts';
import { ChipRuntime } from './digital/chip-runtime.ts';
import type { ChipListener, RunningChip } from './digital/chip-slot.ts';
import type { Probes } from './readout/probes.ts';
import { SupplyDroops } from './readout/supply-droop.ts';
import { voltagesAfterRewiring } from './rebuild.ts';

export interface BuiltCircuit {
  readonly circuit: Circuit;
  readonly solver: TransientSolver;
  readonly floatingInputs: FloatingInputs;
  readonly runtime: ChipRuntime;
  readonly unknownOutputs: UnknownOutputs;
  readonly probes: Probes;
  /** only with real wiring */
  readonly droops: SupplyDroops | undefined;
}

/** switches: where the switches stand. carried: chips that go on. before: voltages to begin with, if the bench had some. given: runtime whose chips begin again with their supply on. */
export function makeBuiltCircuit(
  circuit: Circuit,
  switches: Plan['switches'],
  listener: ChipListener,
  probes: Probes,
  carried: ReadonlyMap<string, RunningChip> = new Map(),
  before?: { readonly circuit: Circuit; readonly x: Float64Array },
  given: ReadonlyMap<string, RunningChip> = new Map(),
): BuiltCircuit {
  const floatingInputs = new FloatingInputs(circuit);
  const unknownOutputs: UnknownOutputs = new UnknownOutputs(
    circuit,
    () => solver.end,
    (x) => solver.restFor(x),
  );
  const runtime = new ChipRuntime(circuit, floatingInputs, unknownOutputs, listener, carried, given);
  const solver = new TransientSolver(circuit, runtime.watches, before && voltagesAfterRewiring(before, circuit));
  for (const site of circuit.contacts)
    circuit.network.setConductance(site.device, conductanceOf(site, isClosed(switches, site.placed.part.id, site.pole)));
  for (const site of circuit.supplies) circuit.network.switchSupply(site.device, isClosed(switches, site.placed.part.id, 0));
  probes.attach(circuit);
  const droops = circuit.wires.length > 0 ? new SupplyDroops(circuit.chips) : undefined;
  return { circuit, floatingInputs, unknownOutputs, runtime, solver, probes, droops };
}

const isClosed = (switches: Plan['switches'], id: string, pole: number): boolean => switches[id]?.[pole] ?? false;
/** [S] */
export const conductanceOf = (site: ContactSite, closed: boolean): number => 1 / (closed ? site.contact.on : site.contact.off);
