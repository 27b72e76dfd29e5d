/** An edit of a running bench: it is put together again, and chips that the edit is not about keep what they hold and go on with what they do. */

import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { OFF } from '../devices/network.ts';
import { apply, type Change } from '../document/changes.ts';
import type { Options } from './api.ts';
import { type BuiltCircuit, makeBuiltCircuit } from './built-circuit.ts';
import { buildCircuit, type Circuit, checkContents } from './circuit/circuit.ts';
import { beginChip } from './digital/chip-slot.ts';
import type { SwitchStates } from './digital/switch-state.ts';
import { givenBytes, isBytesApart, isWiredAlike, isWiresApart, restarts } from './rebuild.ts';
import { planOf } from './snapshot.ts';
import type { TimeLoop } from './time-loop.ts';

/** The bench stays as it is if its plan would not stand any more. */
export function rewire(loop: TimeLoop, switches: SwitchStates, options: Options, change: Change): Outcome<void> {
  const before = loop.built;
  const plan = planOf(before, switches.switches);
  const after = apply(plan, change);
  if (isWiredAlike(plan, after)) {
    loop.built = { ...before, circuit: { ...before.circuit, plan: after } };
    return done(undefined);
  }
  const byWires = isWiresApart(plan, after) ? before.circuit : undefined;
  const circuit = isBytesApart(plan, after)
    ? withBytes(before.circuit, after)
    : buildCircuit(after, options.drive, options.overrides, byWires);
  if (!circuit.ok) return circuit;
  if (byWires?.network === circuit.value.network) {
    loop.built = { ...before, circuit: circuit.value };
    loop.onlookers.probes.attach(circuit.value);
    return done(undefined);
  }
  const restarted = restarts(plan, circuit.value.plan);
  for (const id of restarted) loop.overload.forget(id);
  switches.begin(circuit.value.plan.switches);
  before.solver.complete();
  if (circuit.value.network === before.circuit.network) letGo(before, restarted);
  const carried = new Map([...before.runtime.byPart].filter(([part]) => !restarted.has(part)));
  // one that forgets without its supply keeps it while it is given other bytes
  const put = givenBytes(plan, circuit.value.plan);
  const given = new Map([...before.runtime.byPart].filter(([part, s]) => s.site.spec.word?.forgets && put.has(part)));
  loop.built = makeBuiltCircuit(
    circuit.value,
    switches.switches,
    loop.listener,
    loop.onlookers.probes,
    carried,
    { circuit: before.circuit, x: before.solver.x },
    given,
  );
  // a chip that has just been pushed in had no supply until now
  for (const [part, slot] of loop.built.runtime.byPart) {
    if (carried.get(part) === slot) continue;
    if (given.has(part)) slot.volts = loop.built.solver.x;
    beginChip(slot, loop.time);
  }
  loop.rewired();
  return done(undefined);
}

/** Other bytes need no other circuit. */
function withBytes(circuit: Circuit, plan: Plan): Outcome<Circuit> {
  const fits = checkContents(plan, (id) => circuit.chipById.get(id)?.spec);
  return fits.ok ? done({ ...circuit, plan }) : fits;
}

/** Chips that begin again drive nothing until they do. */
function letGo({ circuit: { network, partition, chipById } }: BuiltCircuit, parts: ReadonlySet<string>): void {
  for (const id of parts) {
    const site = chipById.get(id);
    if (!site) continue;
    for (const { device } of site.outputs) network.setPull(device, OFF);
    network.setConductance(site.drain, site.drains.resting);
  }
  partition.markAllDirty();
}
