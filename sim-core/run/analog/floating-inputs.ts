/**
 * Which inputs float: an input whose worst-case leakage, through the resistance that the rest of the bench shows it, can carry it out of its level.
 * Judged by computation: a 10 kΩ resistor holds 10 µA within 0.1 V, a 1 MΩ one may let it move by 10 V.
 */

import { type Device, GROUND, type Network, type Node, OFF } from '../../devices/network.ts';
import { type Linear, makeLinear } from '../../solve/linear.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { Partition } from '../circuit/partition.ts';
import type { ChipInput, ChipSite } from '../circuit/sites.ts';
import { LoadedBlock } from './loaded-block.ts';
import { steeredBlocks } from './unknown-outputs.ts';

/** An input that nothing holds may read either, or counts as high. */
export type Floating = 'anywhere' | 'high';

/** What of a circuit decides on that. */
export type FloatingCircuit = Pick<Circuit, 'network' | 'partition' | 'chips' | 'supplies' | 'branches'>;

export class FloatingInputs {
  private readonly network: Network;
  private readonly linear: Linear;
  private readonly values: Float64Array;
  private readonly spare: Float64Array;
  private readonly unit: Float64Array;
  private readonly answer: Float64Array;
  private readonly leakage: Leakage;
  private readonly leaky: number[];
  private readonly blocks: Partition;
  private readonly steered: ReadonlySet<number>;
  /** by block; one more for what every block may lean on */
  private readonly leakageInBlock: Leakage;
  /** by chip and input: the output at the same pin, if it has one */
  private readonly outputAt: Map<ChipSite, (Device | undefined)[]>;
  /** by block: the outputs in it */
  private readonly outputsIn = new Map<number, Device[]>();
  private readonly loadedBlocks = new Map<number, LoadedBlock>();
  /** by block and load, of now: the circuit's voltages, if a rest was found; all pins of a block ask for the same */
  private readonly loaded = new Map<string, Float64Array | undefined>();
  private factored = false;
  /** by node: what ends at ground, or at a supply's plus terminal (with that supply) */
  private readonly straight: Straight[][];

  constructor(circuit: FloatingCircuit) {
    const { network } = circuit;
    this.network = network;
    const { n } = this.network;
    this.linear = makeLinear(this.network);
    this.values = new Float64Array(this.network.pattern.row.length + 1);
    this.spare = new Float64Array(n + 1);
    this.unit = new Float64Array(n + 1);
    this.answer = new Float64Array(n + 1);
    this.leakage = leakagePerNode(circuit);
    this.leaky = [...this.leakage.either.keys()].filter((node) => (this.leakage.either[node] as number) > 0);
    const { partition } = circuit;
    this.blocks = partition;
    this.steered = steeredBlocks(circuit);
    this.leakageInBlock = noLeakage(this.blocks.count + 1);
    for (const node of this.leaky)
      for (const way of WAYS) add(this.leakageInBlock[way], this.placeOf(node), this.leakage[way][node] as number);
    this.outputAt = new Map(circuit.chips.map((c) => [c, c.inputs.map((i) => c.outputs.find((o) => o.name === i.name)?.device)]));
    for (const { node, device } of circuit.chips.flatMap((c) => c.outputs)) {
      const block = this.blocks.blockOf(node);
      this.outputsIn.set(block, [...(this.outputsIn.get(block) ?? []), device]);
    }
    this.straight = straightToRails(circuit);
  }

  /** forget what was factored: the network's values have changed */
  changed(): void {
    this.factored = false;
    this.loaded.clear();
  }

  /** does this input of the chip float at voltages x? */
  floats(chip: ChipSite, input: number, x: Float64Array): Floating | false {
    const pin = chip.inputs[input];
    if (!pin || pin.node === GROUND) return false;
    const output = this.outputAt.get(chip)?.[input];
    if (output && this.network.pullOf(output) !== OFF) return false;
    const ground = chip.ground.node === GROUND ? 0 : (x[chip.ground.node] as number);
    const volts = (x[pin.node] as number) - ground;
    if (!this.drifts(chip, pin, x, volts)) return false;
    return volts >= (pin.figures.openHigh ?? Number.POSITIVE_INFINITY) ? 'high' : 'anywhere';
  }

  /** Can leakage carry this pin, at so many volts against its chip's ground, out of its level? */
  private drifts(chip: ChipSite, pin: ChipInput, x: Float64Array, volts: number): boolean {
    const whole = pin.of === undefined ? 1 : wholeOf(x, pin.of, chip);
    const vil = pin.figures.vil * whole;
    const vih = pin.figures.vih * whole;
    const room = volts <= vil ? vil - volts : volts >= vih ? volts - vih : 0;
    const isSteered = this.steered.has(this.blocks.blockOf(pin.node));
    // what feeds the pins raises them and is no danger to a high one; where a transistor turns a rise into a fall, either is
    const way: Way = isSteered || room === 0 ? 'either' : volts <= vil ? 'raises' : 'lowers';
    // quick answer, for all that leaks in this block; a transistor makes more of what leaks at its base
    if (room > 0 && !isSteered && this.isHeld(pin.node, x, this.leakageInBlock[way][this.placeOf(pin.node)] as number, room)) return false;
    // its own leakage and that of every pin that can reach it: the row of resistances to here, which a transistor makes another than the column
    this.factor(x);
    this.unit.fill(0);
    this.unit[pin.node] = 1;
    this.linear.solveTransposed(this.unit, this.answer);
    let drift = 0;
    for (const node of this.leaky) drift += Math.abs(this.answer[node] as number) * (this.leakage[way][node] as number);
    if (drift <= (room === 0 ? vih - vil : room)) return false;
    return !this.isDriven(pin.node) || !this.staysUnderLoad(chip, pin, x, volts, { vil, vih });
  }

  /** Does some output pull in the block of this node, where no transistor turns a rise into a fall? */
  private isDriven(node: Node): boolean {
    const block = this.blocks.blockOf(node);
    const outputs = this.outputsIn.get(block);
    return outputs?.some((o) => this.network.pullOf(o) !== OFF) === true && !this.steered.has(block);
  }

  /**
   * Does the level stay while all that leaks in its block is drawn from it, or fed into it? An output that is hardly loaded has a large resistance for small
   * changes and gives way no further once it is loaded, so the drawn current is solved for.
   */
  private staysUnderLoad(chip: ChipSite, { node }: ChipInput, x: Float64Array, volts: number, { vil, vih }: Levels): boolean {
    const block = this.blocks.blockOf(node);
    const ground = chip.ground.node === GROUND ? this.network.n : chip.ground.node;
    const loaded = (load: Load): number => {
      const there = this.underLoad(block, load, x);
      return there ? (there[node] as number) - (there[ground] as number) : Number.NaN;
    };
    if (volts >= vih) return loaded('lowers') >= vih;
    if (volts <= vil) return loaded('raises') <= vil;
    return volts - loaded('lowers') <= vih - vil && loaded('raises') - volts <= vih - vil;
  }

  /** Voltages at rest where all that leaks in the block is fed into it, or drawn from it; those of other blocks as in x. */
  private underLoad(block: number, load: Load, x: Float64Array): Float64Array | undefined {
    const key = `${block} ${load}`;
    if (!this.loaded.has(key)) this.loaded.set(key, this.findUnderLoad(block, load, x));
    return this.loaded.get(key);
  }

  private findUnderLoad(block: number, load: Load, x: Float64Array): Float64Array | undefined {
    const leaky = this.leaky.filter((n) => this.blocks.blockOf(n) === block);
    const drawn = new Map(leaky.map((n) => [n, (load === 'lowers' ? 1 : -1) * (this.leakage[load][n] as number)]));
    const at = this.loadedBlock(block);
    const volts = at.volts(x, drawn, at.nodes);
    if (!volts) return undefined;
    const found = x.slice();
    for (const [i, node] of at.nodes.entries()) found[node] = volts[i] as number;
    return found;
  }

  private loadedBlock(block: number): LoadedBlock {
    const { of } = this.blocks;
    const known = this.loadedBlocks.get(block);
    const made =
      known ??
      new LoadedBlock(
        this.network,
        this.network.unfolded.filter((n) => of[n] === block || of[n] === -1),
      );
    if (!known) this.loadedBlocks.set(block, made);
    return made;
  }

  private placeOf(node: Node): number {
    const block = this.blocks.blockOf(node);
    return block === -1 ? this.blocks.count : block;
  }

  /** Do conductances from a node straight to ground or a live supply hold this current within `room` [V] already? */
  private isHeld(node: Node, x: Float64Array, amps: number, room: number): boolean {
    const here = this.straight[node] ?? NOTHING;
    let siemens = 0;
    for (let k = 0; k < here.length && !(amps <= room * siemens); k++) {
      const { device, supply } = here[k] as Straight;
      if (!supply || this.network.isOn(supply)) siemens += this.network.flow(device, x).g;
    }
    return amps <= room * siemens;
  }

  /** small-signal resistance [Ω] from a node to everything that has a fixed potential, at voltages x */
  resistance(node: Node, x: Float64Array): number {
    if (node === GROUND) return 0;
    this.factor(x);
    this.unit.fill(0);
    this.unit[node] = 1;
    this.linear.solve(this.unit, this.answer);
    return this.answer[node] as number;
  }

  private factor(x: Float64Array): void {
    if (this.factored) return;
    this.network.complete(x);
    this.network.evaluate(x, this.spare, this.answer, this.values);
    this.factored = this.linear.refactor(this.values) < 0;
  }
}

/** [V] */
interface Levels {
  readonly vil: number;
  readonly vih: number;
}

/** What thresholds of this chip are parts of [V]: the voltage of node `of` against its ground pin. */
function wholeOf(x: Float64Array, of: Node, { ground }: ChipSite): number {
  const at = (node: Node) => (node === GROUND ? 0 : (x[node] as number));
  return at(of) - at(ground.node);
}

/** A resistor to ground or a supply, or an output of a chip whose supply and ground pins are there. */
interface Straight {
  readonly device: Device;
  /** holds only while this one is on */
  readonly supply?: Device;
}

const NOTHING: readonly Straight[] = [];

function straightToRails(circuit: FloatingCircuit): Straight[][] {
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
    for (const { device, node } of outputs) found[node]?.push({ device, supply: live });
  }
  return found;
}

/** What raises the net that it leaks into, what lowers it, and the larger of the two. */
type Way = Load | 'either';
type Load = 'raises' | 'lowers';
const WAYS: readonly Way[] = ['raises', 'lowers', 'either'];
/** [A], by place */
type Leakage = Readonly<Record<Way, Float64Array>>;

const noLeakage = (n: number): Leakage => ({ raises: new Float64Array(n), lowers: new Float64Array(n), either: new Float64Array(n) });

/** Ground has no place: what is put there is dropped. */
function add(sums: Float64Array, place: number, amps: number): void {
  if (place in sums) sums[place] = (sums[place] as number) + amps;
}

function leakagePerNode({ network, chips }: FloatingCircuit): Leakage {
  const sum = noLeakage(network.n);
  const leak = (node: Node, out: number, into: number) => {
    add(sum.raises, node, out);
    add(sum.lowers, node, into);
    add(sum.either, node, Math.max(out, into));
  };
  for (const { inputs, outputs, spec } of chips) {
    const both = new Set(outputs.map((o) => o.name));
    for (const { node } of outputs) leak(node, spec.released.leakage, spec.released.leakage);
    for (const { node, name, figures } of inputs) if (!both.has(name)) leak(node, figures.leakage, figures.sinks ?? figures.leakage);
  }
  return sum;
}
