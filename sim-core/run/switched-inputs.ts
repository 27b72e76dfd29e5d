/** Which switch sets which input of a bench, and which way: found by tracing the circuit and by trying. */
import type { Node } from '../devices/network.ts';
import type { Simulation } from './api.ts';
import type { Circuit } from './circuit/circuit.ts';
import type { ChipInput } from './circuit/sites.ts';

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

/** One pole of one switch, and how it stands or should stand. */
export interface PoleAt {
  readonly part: string;
  readonly pole: number;
  readonly closed: boolean;
}

/** Which pole sets which input, found by tracing the circuit and by trying. Inputs without exactly one switch are left out. */
export function switchedInputs(sim: Simulation): SwitchedInput[] {
  const { circuit } = sim;
  const found: SwitchedInput[] = [];
  for (const { name, pin } of inputPins(circuit)) {
    const set = switchAt(sim, pin);
    if (set) found.push({ name, ...set });
  }
  // of memories that share their address wires, a switch is named by the first
  return circuit.plan.wanted?.inputs.length
    ? found
    : found.filter((s, i) => found.findIndex((o) => o.part === s.part && o.pole === s.pole) === i);
}

/** A pole of a neighbour that shares no more than a common pin of a digit moves a pin by less than this [V]. Our choice. */
const SETS = 0.5;

/** The one pole that sets this pin ('U1.A0'), and which way: where it moves nothing, as on a shorted bench, high when closed. undefined if there is none, or more than one. */
export function switchAt(sim: Simulation, pin: string): Omit<SwitchedInput, 'name'> | undefined {
  const input = inputAt(sim.circuit, pin);
  if (!input) return undefined;
  const near = polesNear(sim.circuit, input.node);
  const x = new Float64Array(sim.circuit.network.n + 1);
  const volts = (): number => {
    sim.voltages(x);
    return x[input.node] as number;
  };
  const setting = near.flatMap((pole) => {
    const before = sim.isClosed(pole.part, pole.pole);
    sim.act({ do: 'set', ...pole, closed: !before });
    const moved = volts();
    sim.act({ do: 'set', ...pole, closed: before });
    const stands = volts();
    const moves = Math.abs(moved - stands) >= SETS;
    return near.length > 1 && !moves ? [] : [{ pin, ...pole, highWhenClosed: !moves || moved > stands !== before }];
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

/** The input of a chip that is at this pin ('U1.A0'). */
const inputAt = ({ chips }: Circuit, pin: string): ChipInput | undefined =>
  chips.flatMap(({ placed, inputs }) => inputs.filter(({ name }) => `${placed.part.id}.${name}` === pin))[0];

/** The switch poles in the block of this node. */
function polesNear({ contacts, network, partition }: Circuit, node: Node): readonly { part: string; pole: number }[] {
  const block = partition.blockOf(node);
  if (block === -1) return [];
  return contacts
    .filter((c) => !c.contact.momentary && network.nodesOf(c.device).some((n) => partition.blockOf(n) === block))
    .map((c) => ({ part: c.placed.part.id, pole: c.pole }));
}
