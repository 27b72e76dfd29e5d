/** Every setting of the switches that set a bench's inputs, each at rest: what the memories read and what the LEDs show. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import type { Options, Simulation } from './api.ts';
import { buildCircuit, type Circuit } from './circuit/circuit.ts';
import { switchedOn } from './circuit/switch-settings.ts';
import type { ChipReading, LedReading } from './readout/readings.ts';
import { simulate } from './simulation.ts';

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

/** One setting: the address it makes, the byte read and the brightness step of each LED. */
export interface SweepRow {
  /** bit i is the wanted level of input i */
  readonly row: number;
  readonly chips: readonly ChipReading[];
  readonly leds: readonly LedReading[];
}

/** Every setting of the input switches, with what the bench showed at rest. */
export interface Sweep {
  readonly inputs: readonly SwitchedInput[];
  readonly rows: readonly SweepRow[];
}

/** Most inputs that are swept: 65 536 rows. */
const MOST_INPUTS = 16;

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

/** One of so many equal shares of all rows, in the order in which they are gone through; the first is 0. */
export interface Share {
  readonly part: number;
  readonly of: number;
}

const WHOLE: Share = { part: 0, of: 1 };

/** A bench that is taken through the rows of its inputs one after the other, with every supply on and every button released. */
export interface RowWalk {
  readonly inputs: readonly SwitchedInput[];
  /** of all inputs, and of this share */
  readonly rows: number;
  readonly mine: number;
  /** names of the LEDs that `brightnesses` speaks of */
  readonly leds: readonly string[];
  /** places in BRIGHTNESSES of the LEDs in the row where it stands; written again by every `next` */
  readonly brightnesses: Uint8Array;
  readonly sim: Simulation;
  /** goes to the next row, one switch away, and returns its number; −1: all have been seen. Nothing is read but the LEDs. */
  next(): number;
}

export function walkRows(plan: Plan, options: Partial<Options> = {}, share: Share = WHOLE): Outcome<RowWalk> {
  const circuit = buildCircuit(plan, options.drive);
  if (!circuit.ok) return circuit;
  // found switched on: a static RAM holds what the plan says
  const built = simulate(switchedOn(plan, circuit.value), { ...options, still: true });
  if (!built.ok) return built;
  const sim = built.value;
  const inputs = switchedInputs(sim);
  if (inputs.length === 0)
    return failed(
      'run/no-address-switch',
      'plan',
      'No switch of this bench sets an input of a memory, so there is nothing to go through. Wire a switch to an address pin.',
    );
  if (inputs.length > MOST_INPUTS)
    return failed(
      'run/too-many-inputs',
      'plan',
      `${inputs.length} inputs make more rows than can be gone through; ${MOST_INPUTS} is the most.`,
    );
  const acts = inputs.map(({ part, pole, highWhenClosed }) =>
    [false, true].map((high) => ({ do: 'set', part, pole, closed: high === highWhenClosed }) as const),
  );
  const rows = 2 ** inputs.length;
  const first = Math.floor((rows * share.part) / share.of);
  const beyond = Math.floor((rows * (share.part + 1)) / share.of);
  for (const [bit, levels] of acts.entries()) {
    const act = levels[(gray(first) >> bit) & 1];
    if (act) sim.act(act);
  }
  const brightnesses = new Uint8Array(sim.circuit.leds.length);
  let step = first - 1;
  return done({
    inputs,
    rows,
    mine: beyond - first,
    leds: sim.circuit.leds.map((l) => l.id),
    brightnesses,
    sim,
    next() {
      step += 1;
      if (step >= beyond) return -1;
      const row = gray(step);
      if (step > first) {
        const bit = 31 - Math.clz32(step & -step);
        const act = acts[bit]?.[(row >> bit) & 1];
        if (act) sim.act(act);
      }
      sim.brightnesses(brightnesses);
      return row;
    },
  });
}

/** The row of a step: neighbours are one switch apart. */
const gray = (step: number): number => step ^ (step >> 1);

/**
 * All rows with all that can be read of memories and LEDs, in order.
 * Fails with `plan/…`, `run/no-address-switch` or `run/too-many-inputs`.
 */
export function sweep(plan: Plan, options: Partial<Options> = {}): Outcome<Sweep> {
  const walk = walkRows(plan, options);
  if (!walk.ok) return walk;
  const { inputs, sim } = walk.value;
  const rows: SweepRow[] = [];
  for (let row = walk.value.next(); row >= 0; row = walk.value.next()) {
    const { chips, leds } = sim.readings();
    rows[row] = { row, chips, leds };
  }
  return done({ inputs, rows });
}
