/**
 * Which inputs float: an input whose worst-case leakage, through the resistance that the rest of the bench shows it, can carry it out of its level.
 * Judged by computation: a 10 kΩ resistor holds 10 µA within 0.1 V, a 1 MΩ one may let it move by 10 V.
 */
import { type Device, GROUND, type Node, OFF } from '../../devices/network.ts';
import { makeLinear } from '../../solve/linear.ts';
import type { ChipSite, Circuit } from '../circuit/circuit.ts';

export interface FloatingInputs {
  /** small-signal resistance [Ω] from a node to everything that has a fixed potential, at voltages x */
  resistance(node: Node, x: Float64Array): number;
  /** forget what was factored: the network's values have changed */
  changed(): void;
  /** does this input of the chip float at voltages x? */
  floats(chip: ChipSite, input: number, x: Float64Array): boolean;
  /** worst-case leakage on a chip pin's net [A] */
  leakage(node: Node): number;
}

export function makeFloatingInputs(circuit: Circuit): FloatingInputs {
  const { network } = circuit;
  const { n } = network;
  const linear = makeLinear(network);
  const values = new Float64Array(network.pattern.row.length + 1);
  const spare = new Float64Array(n + 1);
  const unit = new Float64Array(n + 1);
  const answer = new Float64Array(n + 1);
  const leakage = leakagePerNode(circuit);
  const leaky = [...leakage.keys()].filter((node) => node < n && (leakage[node] as number) > 0);
  const { blocks } = circuit;
  /** by block; one more for what every block may lean on */
  const leakageInBlock = new Float64Array(blocks.count + 1);
  const placeOf = (node: Node) => (blocks.of[node] === -1 ? blocks.count : (blocks.of[node] as number));
  for (const node of leaky) leakageInBlock[placeOf(node)] = (leakageInBlock[placeOf(node)] as number) + (leakage[node] as number);
  /** by chip and input: the output at the same pin, if it has one */
  const outputAt = new Map(circuit.chips.map((c) => [c, c.inputs.map((i) => c.outputs.find((o) => o.name === i.name)?.device)]));
  let factored = false;

  /** by node: what ends at ground, or at a supply's plus terminal (with that supply) */
  const straight = straightToRails(circuit);
  /** Do conductances from a node straight to ground or a live supply hold this current within `room` [V] already? */
  const isHeld = (node: Node, x: Float64Array, amps: number, room: number): boolean => {
    const here = straight[node] ?? NOTHING;
    let siemens = 0;
    for (let k = 0; k < here.length && !(amps <= room * siemens); k++) {
      const { device, supply } = here[k] as Straight;
      if (!supply || network.isOn(supply)) siemens += network.flow(device, x).g;
    }
    return amps <= room * siemens;
  };

  const resistance = (node: Node, x: Float64Array): number => {
    if (node === GROUND) return 0;
    if (!factored) {
      network.complete(x);
      network.evaluate(x, spare, answer, values);
      factored = linear.refactor(values) < 0;
    }
    unit.fill(0);
    unit[node] = 1;
    linear.solve(unit, answer);
    return answer[node] as number;
  };

  return {
    resistance,
    changed() {
      factored = false;
    },
    leakage: (node) => (node === GROUND ? 0 : (leakage[node] as number)),
    floats(chip, input, x) {
      const pin = chip.inputs[input];
      if (!pin || pin.node === GROUND) return false;
      const output = outputAt.get(chip)?.[input];
      if (output && network.pullOf(output) !== OFF) return false;
      const ground = chip.ground.node === GROUND ? 0 : (x[chip.ground.node] as number);
      const volts = (x[pin.node] as number) - ground;
      const whole = pin.of === undefined ? 1 : (pin.of === GROUND ? 0 : (x[pin.of] as number)) - ground;
      const vil = pin.figures.vil * whole;
      const vih = pin.figures.vih * whole;
      const room = volts <= vil ? vil - volts : volts >= vih ? volts - vih : 0;
      // quick answer, for all that leaks in this block
      if (room > 0 && isHeld(pin.node, x, leakageInBlock[placeOf(pin.node)] as number, room)) return false;
      // its own leakage and that of every pin that can reach it: the column of resistances from here
      resistance(pin.node, x);
      let drift = 0;
      for (const node of leaky) drift += Math.abs(answer[node] as number) * (leakage[node] as number);
      return drift > (room === 0 ? vih - vil : room);
    },
  };
}

/** A resistor to ground or a supply, or an output of a chip whose supply and ground pins are there. */
interface Straight {
  readonly device: Device;
  /** holds only while this one is on */
  readonly supply?: Device;
}

const NOTHING: readonly Straight[] = [];

function straightToRails(circuit: Circuit): Straight[][] {
  const { network } = circuit;
  const found: Straight[][] = Array.from({ length: network.n }, () => []);
  const plus = new Map(circuit.supplies.map(({ device }) => [network.nodesOf(device)[0], device]));
  for (const { device } of circuit.branches) {
    if (device.kind !== 'conductance') continue;
    const [a, b] = network.nodesOf(device);
    for (const [node, other] of [
      [a, b],
      [b, a],
    ] as const) {
      const supply = plus.get(other);
      if (node === other || node === GROUND) continue;
      if (other === GROUND) found[node]?.push({ device });
      else if (supply) found[node]?.push({ device, supply });
    }
  }
  for (const { outputs, ground, supply } of circuit.chips) {
    const live = plus.get(supply.node);
    if (ground.node !== GROUND || !live) continue;
    for (const { device, node } of outputs) if (node !== GROUND) found[node]?.push({ device, supply: live });
  }
  return found;
}

function leakagePerNode(circuit: Circuit): Float64Array {
  const sum = new Float64Array(circuit.network.n + 1);
  for (const chip of circuit.chips) {
    const outputs = new Set(chip.outputs.map((o) => o.name));
    for (const pin of chip.outputs)
      sum[pin.node === GROUND ? circuit.network.n : pin.node] = (sum[pin.node] ?? 0) + chip.spec.released.leakage;
    for (const pin of chip.inputs)
      if (!outputs.has(pin.name)) sum[pin.node === GROUND ? circuit.network.n : pin.node] = (sum[pin.node] ?? 0) + pin.figures.leakage;
  }
  return sum;
}
