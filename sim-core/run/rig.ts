/** Everything that belongs to one wiring of a running bench; made anew when a lead moves, with the chips that go on. */
import type { Plan } from '../../shared/plan.ts';
import type { Circuit, ContactSite } from './circuit.ts';
import { type Dips, makeDips } from './dips.ts';
import { type Holding, makeHolding } from './holding.ts';
import { makePhysics, type Physics } from './physics.ts';
import type { Probes } from './probes.ts';
import { voltagesAfterRewiring } from './rewiring.ts';
import { type Ear, makeSockets, type Socket, type Sockets } from './sockets.ts';
import { makeUndecided, type Undecided } from './undecided.ts';

export interface Rig {
  readonly circuit: Circuit;
  readonly physics: Physics;
  readonly holding: Holding;
  readonly sockets: Sockets;
  readonly undecided: Undecided;
  readonly probes: Probes;
  /** only with real wiring */
  readonly dips: Dips | undefined;
}

/** hands: where the switches stand. carried: chips that go on. before: voltages to begin with, if the bench had some. given: sockets whose chips begin anew with their supply on. */
export function makeRig(
  circuit: Circuit,
  hands: Plan['hands'],
  ear: Ear,
  probes: Probes,
  carried: readonly Socket[] = [],
  before?: { readonly circuit: Circuit; readonly x: Float64Array },
  given: readonly Socket[] = [],
): Rig {
  const holding = makeHolding(circuit);
  const undecided: Undecided = makeUndecided(
    circuit,
    () => physics.end,
    (x) => physics.restFor(x),
  );
  const sockets = makeSockets(circuit, holding, undecided, ear, carried, given);
  const physics = makePhysics(circuit, sockets.watches, before && voltagesAfterRewiring(before, circuit));
  for (const site of circuit.contacts)
    circuit.network.setConductance(site.device, conductanceOf(site, handOf(hands, site.placed.part.id, site.pole)));
  for (const site of circuit.supplies) circuit.network.switchSupply(site.device, handOf(hands, site.placed.part.id, 0));
  probes.attach(circuit);
  const dips = circuit.wires.length > 0 ? makeDips(circuit.chips) : undefined;
  return { circuit, holding, undecided, sockets, physics, probes, dips };
}

const handOf = (hands: Plan['hands'], id: string, pole: number): boolean => hands[id]?.[pole] ?? false;
/** [S] */
export const conductanceOf = (site: ContactSite, closed: boolean): number => 1 / (closed ? site.contact.on : site.contact.off);
