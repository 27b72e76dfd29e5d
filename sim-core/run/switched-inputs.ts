/** Which switch sets which input of a bench, and which way: found by tracing the circuit and by trying. */
import type { Simulation } from './api.ts';
import type { Circuit } from './circuit/circuit.ts';

/** One input of the bench and the switch pole that sets it. */
export interface SwitchedInput {
  /** 'hot', or the pin's own name where the plan gives none */
  readonly name: string;
  /** 'U1.A0' */
  readonly pin: string;
  readonly part: string;
  readonly pole: number;
  /** true: the input is high when the pole is closed */
  readonly highWhenClosed: boolean;
}

/** Which pole sets which input, found by tracing the circuit and by trying. Inputs without exactly one switch are left out. */
export function switchedInputs(sim: Simulation): SwitchedInput[] {
  const { circuit } = sim;
  const found: SwitchedInput[] = [];
  for (const { name, pin } of inputPins(circuit)) {
    const set = switchAt(sim, pin);
    if (set) found.push({ name, ...set });
  }
  return found;
}

/** A pole of a neighbour that shares no more than a common pin of a digit moves a pin by less than this [V]. Our choice. */
const SETS = 0.5;

/** The one pole that sets this pin ('U1.A0'), and which way; undefined if there is none, or more than one. */
export function switchAt(sim: Simulation, pin: string): Omit<SwitchedInput, 'name'> | undefined {
  const near = polesNear(sim.circuit, pin);
  const setting = near.flatMap((pole) => {
    const before = sim.readings().switches[pole.part]?.[pole.pole] ?? false;
    sim.act({ do: 'set', ...pole, closed: !before });
    const moved = voltsAt(sim, pin);
    sim.act({ do: 'set', ...pole, closed: before });
    const stands = voltsAt(sim, pin);
    return near.length > 1 && Math.abs(moved - stands) < SETS ? [] : [{ pin, ...pole, highWhenClosed: moved > stands !== before }];
  });
  return setting.length === 1 ? setting[0] : undefined;
}

/** The plan's wanted inputs, or every address pin of its memories. */
function inputPins(circuit: Circuit): readonly { name: string; pin: string }[] {
  const { wanted } = circuit.plan;
  if (wanted && wanted.inputs.length > 0) return wanted.inputs;
  return circuit.chips.flatMap(({ placed, spec }) =>
    (spec.word?.address ?? []).map((name) => ({ name, pin: `${placed.part.id}.${name}` })),
  );
}

/** The switch poles in the block of this chip pin ('U1.A0'). */
function polesNear(circuit: Circuit, pin: string): readonly { part: string; pole: number }[] {
  const node = circuit.chips
    .flatMap((c) => c.inputs.map((i) => ({ name: `${c.placed.part.id}.${i.name}`, node: i.node })))
    .find((i) => i.name === pin)?.node;
  const block = node === undefined ? -1 : circuit.partition.blockOf(node);
  if (block === -1) return [];
  return circuit.contacts
    .filter((c) => !c.contact.momentary && circuit.network.nodesOf(c.device).some((n) => circuit.partition.blockOf(n) === block))
    .map((c) => ({ part: c.placed.part.id, pole: c.pole }));
}

function voltsAt(sim: Simulation, pin: string): number {
  const [part, name] = [pin.slice(0, pin.indexOf('.')), pin.slice(pin.indexOf('.') + 1)];
  const site = sim.circuit.chipById.get(part);
  const leg = site?.inputs.find((i) => i.name === name)?.leg;
  return (leg && sim.readings().nets[sim.circuit.netOf(leg).index]?.volts) ?? 0;
}
