/** Everything that belongs to one wiring of a running bench; made anew when a wire moves, with the chips that go on. */
import type { Plan } from '../../shared/plan.ts';
import { type FloatingInputs, makeFloatingInputs } from './analog/floating-inputs.ts';
import { makeTransientSolver, type TransientSolver } from './analog/transient-solver.ts';
import { makeUnknownOutputs, type UnknownOutputs } from './analog/unknown-outputs.ts';
import type { Circuit, ContactSite } from './circuit/circuit.ts';
import { type ChipRuntime, type Ear, makeChipRuntime, type Socket } from './digital/chip-runtime.ts';
import type { Probes } from './readout/probes.ts';
import { makeSupplyDroops, type SupplyDroops } from './readout/supply-droop.ts';
import { voltagesAfterRewiring } from './rebuild.ts';

export interface BuiltCircuit {
  readonly circuit: Circuit;
  readonly physics: TransientSolver;
  readonly holding: FloatingInputs;
  readonly sockets: ChipRuntime;
  readonly undecided: UnknownOutputs;
  readonly probes: Probes;
  /** only with real wiring */
  readonly dips: SupplyDroops | undefined;
}

/** hands: where the switches stand. carried: chips that go on. before: voltages to begin with, if the bench had some. given: sockets whose chips begin anew with their supply on. */
export function makeBuiltCircuit(
  circuit: Circuit,
  hands: Plan['hands'],
  ear: Ear,
  probes: Probes,
  carried: readonly Socket[] = [],
  before?: { readonly circuit: Circuit; readonly x: Float64Array },
  given: readonly Socket[] = [],
): BuiltCircuit {
  const holding = makeFloatingInputs(circuit);
  const undecided: UnknownOutputs = makeUnknownOutputs(
    circuit,
    () => physics.end,
    (x) => physics.restFor(x),
  );
  const sockets = makeChipRuntime(circuit, holding, undecided, ear, carried, given);
  const physics = makeTransientSolver(circuit, sockets.watches, before && voltagesAfterRewiring(before, circuit));
  for (const site of circuit.contacts)
    circuit.network.setConductance(site.device, conductanceOf(site, handOf(hands, site.placed.part.id, site.pole)));
  for (const site of circuit.supplies) circuit.network.switchSupply(site.device, handOf(hands, site.placed.part.id, 0));
  probes.attach(circuit);
  const dips = circuit.wires.length > 0 ? makeSupplyDroops(circuit.chips) : undefined;
  return { circuit, holding, undecided, sockets, physics, probes, dips };
}

const handOf = (hands: Plan['hands'], id: string, pole: number): boolean => hands[id]?.[pole] ?? false;
/** [S] */
export const conductanceOf = (site: ContactSite, closed: boolean): number => 1 / (closed ? site.contact.on : site.contact.off);
