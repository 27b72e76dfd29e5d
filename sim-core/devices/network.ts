/**
 * A circuit of primitives between numbered nodes, as flat arrays, and its equations: Kirchhoff's current law at every node.
 * Built once per circuit; afterwards only values change (a switch's conductance, an output's state), never the pattern.
 */
import type { Equations } from '../solve/equations.ts';
import { makePattern, type Pattern, slotOf } from '../solve/pattern.ts';
import { addChannels, addClamps, addConductances, addJunctions, addSupplies, type Sums, switchedSupplyLaw } from './elements.ts';
import { completeFolds, type Fold, findFolds } from './folds.ts';
import {
  type Channel,
  type CurrentAndSlope,
  channelLaw,
  clampLaw,
  type Junction,
  junctionLaw,
  type ReadyJunction,
  readyJunction,
  type Supply,
} from './laws.ts';
import { type Merged, mergeParallel } from './merged.ts';
import { addSlope, type Table, tableOf } from './stamp.ts';
import { type Skew, skewOf, stampTransistors, type Transistor, type TransistorModel, transistorCurrents } from './transistor.ts';

/** A node's number, or GROUND for the reference. */
export type Node = number;
export const GROUND: Node = -1;

/** Every node leaks this to ground [S], so that one that hangs in the air still has a voltage; 10⁵ times below a 10 MΩ meter. */
export const AIR = 1e-12;

/** What an output does to its pin: lets go, pulls to its ground pin, pulls to its supply pin. */
export const OFF = 0;
export const PULL_LOW = 1;
export const PULL_HIGH = 2;
export type Pull = typeof OFF | typeof PULL_LOW | typeof PULL_HIGH;

export interface Channels {
  readonly low: Channel;
  readonly high: Channel;
}

const KINDS = ['conductance', 'capacitor', 'junction', 'clamp', 'output', 'supply'] as const;
type Kind = (typeof KINDS)[number];

/** Names one primitive of a network. */
export interface Device {
  /** a transistor counts as two: what enters at its collector, and what enters at its base */
  readonly kind: Kind | 'collector' | 'base';
  readonly index: number;
}

const EMPTY = new Int32Array(0);

export class Network implements Equations {
  readonly n: number;
  pattern!: Pattern;
  private readonly drafts = Object.fromEntries(KINDS.map((k) => [k, [] as [a: number, b: number][]])) as Record<
    Kind,
    [a: number, b: number][]
  >;
  private readonly tables = Object.fromEntries(KINDS.map((k) => [k, { a: EMPTY, b: EMPTY, slots: EMPTY }])) as Record<Kind, Table>;
  /** an output pulls high against its own supply node */
  private highSide: Table = { a: EMPTY, b: EMPTY, slots: EMPTY };
  private readonly highDraft: [a: number, b: number][] = [];
  private siemens: number[] | Float64Array = [];
  private readonly farads: number[] = [];
  private readonly junctions: ReadyJunction[] = [];
  private readonly lowChannels: Channel[] = [];
  private readonly highChannels: Channel[] = [];
  /** by output, as bytes once sealed */
  private pull: Uint8Array = new Uint8Array(0);
  private readonly supplies: Supply[] = [];
  private readonly supplyOn: boolean[] = [];
  private readonly transistors: Transistor[] = [];
  /** by transistor of the network this one was extracted from; see Equations */
  skew?: Skew;
  /** share of the supplies' voltages that counts while a hard problem is being approached */
  private share = 1;
  private clamps!: Merged;
  private capacitors!: Merged;
  private diagonal = EMPTY;
  /** by conductance: a part that never changes its value */
  private readonly fixed: boolean[] = [];
  /** a fixed resistor and a junction with nothing else on the node between them; see `unfolded` */
  private folds: readonly Fold[] = [];
  /** by junction: its fold, or −1 */
  private foldOf = EMPTY;
  /** currents [A] that leave each node by ways that are not part of this network; see `restAt` */
  private readonly elsewhere: Float64Array;
  private parent: { readonly network: Network; readonly index: Readonly<Record<Kind, Int32Array>> } | undefined;
  private readonly now: CurrentAndSlope = { i: 0, g: 0 };

  /** nodes: how many there are beside ground */
  constructor(nodes: number) {
    this.n = nodes;
    this.elsewhere = new Float64Array(nodes);
  }

  private place(kind: Kind, a: Node, b: Node): Device {
    const draft = this.drafts[kind];
    draft.push([this.inside(a), this.inside(b)]);
    return { kind, index: draft.length - 1 };
  }
  private inside(node: Node): number {
    return node === GROUND ? this.n : node;
  }

  /** changes: its value will be set anew, as a switch's is */
  addConductance(a: Node, b: Node, siemens: number, changes = false): Device {
    (this.siemens as number[]).push(siemens);
    this.fixed.push(!changes);
    return this.place('conductance', a, b);
  }
  addCapacitor(a: Node, b: Node, farads: number): Device {
    this.farads.push(farads);
    return this.place('capacitor', a, b);
  }
  /** Conducts from a to b. */
  addJunction(a: Node, b: Node, j: Junction): Device {
    this.junctions.push(readyJunction(j));
    return this.place('junction', a, b);
  }
  /** Conducts from a to b. */
  addClamp(a: Node, b: Node): Device {
    return this.place('clamp', a, b);
  }
  addOutput(pin: Node, ground: Node, supply: Node, channels: Channels): Device {
    this.lowChannels.push(alike(channels.low));
    this.highChannels.push(alike(channels.high));
    this.highDraft.push([this.inside(pin), this.inside(supply)]);
    return this.place('output', pin, ground);
  }
  addTransistor(collector: Node, base: Node, emitter: Node, model: TransistorModel): readonly [collector: Device, base: Device] {
    this.transistors.push({ collector: this.inside(collector), base: this.inside(base), emitter: this.inside(emitter), model });
    const index = this.transistors.length - 1;
    return [
      { kind: 'collector', index },
      { kind: 'base', index },
    ];
  }
  addSupply(plus: Node, minus: Node, s: Supply): Device {
    this.supplies.push(s);
    this.supplyOn.push(false);
    return this.place('supply', plus, minus);
  }

  /** Fixes the pattern. Nothing can be added afterwards. */
  seal(): this {
    const all = this.pairs();
    if (this.transistors.length > 0) this.skew = skewOf(this.transistors);
    this.pattern = makePattern(
      this.n,
      all.filter(([a, b]) => a < this.n && b < this.n),
    );
    for (const k of KINDS) this.tables[k] = tableOf(this.drafts[k], this.pattern);
    this.highSide = tableOf(this.highDraft, this.pattern);
    this.clamps = mergeParallel(this.tables.clamp, new Float64Array(this.tables.clamp.a.length).fill(1));
    this.capacitors = mergeParallel(this.tables.capacitor, this.farads);
    this.siemens = Float64Array.from(this.siemens);
    this.pull = new Uint8Array(this.lowChannels.length).fill(OFF);
    this.diagonal = Int32Array.from({ length: this.n }, (_, i) => slotOf(this.pattern, i, i));
    const resistors = this.drafts.conductance
      .map((ends, k) => ({ ends, ohms: 1 / (this.siemens[k] as number) }))
      .filter((_, k) => this.fixed[k]);
    const junctions = this.drafts.junction.map((ends, k) => ({ ends, law: this.junctions[k] as ReadyJunction }));
    this.folds = findFolds(all, resistors, junctions, this.n);
    this.foldOf = Int32Array.from(junctions, (_, k) => this.folds.findIndex((f) => f.junction === k));
    return this;
  }

  /**
   * The nodes that have to be solved for. A node between a fixed resistor and a junction is left out: the two are one junction with a larger series
   * resistance, exactly, and `complete` finds the node afterwards.
   */
  get unfolded(): readonly Node[] {
    const inner = new Set(this.folds.map((f) => f.middle));
    return Array.from({ length: this.n }, (_, i) => i).filter((i) => !inner.has(i));
  }

  /** Fills in at x the nodes that `unfolded` leaves out. */
  complete(x: Float64Array): void {
    x[this.n] = 0;
    completeFolds(this.folds, x, this.now);
  }

  /** The nodes that each primitive joins, two by two. */
  private pairs(): (readonly [a: number, b: number])[] {
    const threes = this.transistors.flatMap((t) => [[t.collector, t.base] as const, [t.base, t.emitter] as const]);
    return [...KINDS.flatMap((k) => this.drafts[k]), ...this.highDraft, ...threes];
  }

  /**
   * The part of this network between some of its unfolded nodes and ground, numbered in the order given.
   * Its values follow this network's at every `follow`.
   */
  extract(nodes: readonly Node[]): Network {
    const part = new Network(nodes.length);
    const local = new Map<number, Node>(nodes.map((node, i) => [node, i]));
    local.set(this.n, GROUND);
    const index = Object.fromEntries(KINDS.map((k) => [k, [] as number[]])) as Record<Kind, number[]>;
    for (const kind of KINDS)
      for (const [k, [a, b]] of this.drafts[kind].entries()) {
        const high = kind === 'output' ? (this.highDraft[k]?.[1] as number) : b;
        const i = local.get(a);
        const j = local.get(b);
        const h = local.get(high);
        if (i === undefined || j === undefined || h === undefined) continue;
        index[kind].push(k);
        if (kind === 'conductance') part.addConductance(i, j, this.siemens[k] as number, true);
        else if (kind === 'capacitor') part.addCapacitor(i, j, this.farads[k] as number);
        else if (kind === 'junction') part.addJunction(i, j, this.junctions[k] as ReadyJunction);
        else if (kind === 'clamp') part.addClamp(i, j);
        else if (kind === 'output') part.addOutput(i, j, h, { low: this.lowChannels[k] as Channel, high: this.highChannels[k] as Channel });
        else part.addSupply(i, j, this.supplies[k] as Supply);
      }
    for (const { collector, base, emitter, model } of this.transistors) {
      const [c, b, e] = [local.get(collector), local.get(base), local.get(emitter)];
      if (c !== undefined && b !== undefined && e !== undefined) part.addTransistor(c, b, e, model);
    }
    for (const f of this.folds) {
      const i = local.get(f.from);
      const j = local.get(f.to);
      if (i !== undefined && j !== undefined && !local.has(f.middle)) part.addJunction(i, j, f.law);
    }
    const places = Object.fromEntries(KINDS.map((k) => [k, Int32Array.from(index[k])])) as Record<Kind, Int32Array>;
    part.parent = { network: this, index: places };
    return part.seal();
  }

  /** Takes over the values of the network it was extracted from. */
  follow(): void {
    const { parent } = this;
    if (!parent) return;
    const { network, index } = parent;
    const { conductance, output, supply } = index;
    for (let k = 0; k < conductance.length; k++) this.siemens[k] = network.siemens[conductance[k] as number] as number;
    for (let k = 0; k < output.length; k++) this.pull[k] = network.pull[output[k] as number] as Pull;
    for (let k = 0; k < supply.length; k++) this.supplyOn[k] = network.supplyOn[supply[k] as number] as boolean;
  }

  /** Lets flow elsewhere what must for this network to rest at x (its own numbering). */
  restAt(x: Float64Array, residual: Float64Array, magnitude: Float64Array): void {
    this.elsewhere.fill(0);
    this.evaluate(x, residual, magnitude, null);
    for (let i = 0; i < this.n; i++) this.elsewhere[i] = -(residual[i] as number);
  }

  /** Every primitive's two nodes (GROUND for the reference); an output's supply side counts as one more. */
  *couplings(): Generator<readonly [a: Node, b: Node]> {
    const outside = (i: number): Node => (i === this.n ? GROUND : i);
    for (const [a, b] of this.pairs()) yield [outside(a), outside(b)];
  }
  /** The two nodes of a device. */
  nodesOf(d: Device): readonly [a: Node, b: Node] {
    const [a, b] =
      d.kind === 'collector' || d.kind === 'base' ? this.transistorEnds(d) : (this.drafts[d.kind][d.index] as [number, number]);
    return [a === this.n ? GROUND : a, b === this.n ? GROUND : b];
  }
  private transistorEnds(d: Device): [number, number] {
    const t = this.transistors[d.index] as Transistor;
    return [d.kind === 'base' ? t.base : t.collector, t.emitter];
  }
  /** Scales all supplies, to approach a circuit that cannot be solved at once. */
  ease(share: number): void {
    this.share = share;
  }
  conductance(d: Device): number {
    return this.siemens[d.index] as number;
  }
  setConductance(d: Device, siemens: number): void {
    this.siemens[d.index] = siemens;
  }
  pullOf(d: Device): Pull {
    return this.pull[d.index] as Pull;
  }
  setPull(d: Device, pull: Pull): void {
    this.pull[d.index] = pull;
  }
  switchSupply(d: Device, on: boolean): void {
    this.supplyOn[d.index] = on;
  }
  isOn(d: Device): boolean {
    return this.supplyOn[d.index] as boolean;
  }
  supplyOf(d: Device): Supply {
    return this.supplies[d.index] as Supply;
  }

  evaluate(x: Float64Array, residual: Float64Array, magnitude: Float64Array, jacobian: Float64Array | null): void {
    const { n, now, tables, pull, diagonal, elsewhere } = this;
    const sums: Sums = { residual, magnitude, jacobian };
    x[n] = 0;
    // loops, since the arrays are short
    if (jacobian) for (let k = 0; k < jacobian.length; k++) jacobian[k] = 0;
    magnitude[n] = 0;
    for (let i = 0; i < n; i++) {
      residual[i] = AIR * (x[i] as number) + (elsewhere[i] as number);
      magnitude[i] = 0;
      if (jacobian) jacobian[diagonal[i] as number] = AIR;
    }
    addConductances(tables.conductance, this.siemens as Float64Array, x, sums);
    addJunctions(tables.junction, this.junctions, x, sums, now);
    addClamps(this.clamps, x, sums, now);
    addChannels(tables.output, this.lowChannels, pull, PULL_LOW, x, sums, now);
    addChannels(this.highSide, this.highChannels, pull, PULL_HIGH, x, sums, now);
    addSupplies(tables.supply, this.supplies, this.supplyOn, this.share, x, sums, now);
    if (this.transistors.length > 0)
      stampTransistors(this.transistors, x, residual, magnitude, jacobian && this.skew ? this.skew : null, now);
  }

  addMass(values: Float64Array, scale: number): void {
    const { slots, total } = this.capacitors;
    for (let k = 0; k < total.length; k++) addSlope(slots, k, (total[k] as number) * scale, values);
  }

  massTimes(x: Float64Array, out: Float64Array): void {
    const { a, b, total } = this.capacitors;
    x[this.n] = 0;
    out.fill(0);
    for (let k = 0; k < a.length; k++) {
      const p = a[k] as number;
      const q = b[k] as number;
      const charge = (total[k] as number) * ((x[p] as number) - (x[q] as number));
      out[p] = (out[p] as number) + charge;
      out[q] = (out[q] as number) - charge;
    }
  }

  /** What holds a device's first node at its second, for a small change from the node voltages x [S]. */
  slope(d: Device, x: Float64Array): number {
    if (d.kind === 'conductance') return this.siemens[d.index] as number;
    this.now.g = 0;
    this.current(d, x);
    return this.now.g;
  }

  /** Current [A] from the device's first node into it at the node voltages x; a capacitor's is not known from voltages and reads 0. */
  current(d: Device, x: Float64Array): number {
    const { now } = this;
    const k = d.index;
    x[this.n] = 0;
    const fold = d.kind === 'junction' ? this.folds[this.foldOf[k] as number] : undefined;
    if (fold) {
      junctionLaw((x[fold.from] as number) - (x[fold.to] as number), fold.law, now);
      return now.i;
    }
    if (d.kind === 'collector' || d.kind === 'base') return transistorCurrents(this.transistors[k] as Transistor, x, now)[d.kind];
    const table = d.kind === 'output' && this.pull[k] === PULL_HIGH ? this.highSide : this.tables[d.kind];
    const v = (x[table.a[k] as number] as number) - (x[table.b[k] as number] as number);
    now.i = 0;
    if (d.kind === 'conductance') now.i = (this.siemens[k] as number) * v;
    else if (d.kind === 'junction') junctionLaw(v, this.junctions[k] as ReadyJunction, now);
    else if (d.kind === 'clamp') clampLaw(v, now);
    else if (d.kind === 'supply') switchedSupplyLaw(v, this.supplies[k] as Supply, this.supplyOn[k] === true, this.share, now);
    else if (d.kind === 'output' && this.pull[k] === PULL_LOW) channelLaw(v, this.lowChannels[k] as Channel, now);
    else if (d.kind === 'output' && this.pull[k] === PULL_HIGH) channelLaw(v, this.highChannels[k] as Channel, now);
    return now.i;
  }
}

/** All of one shape, which the inner loop's speed hangs on. */
const alike = ({ g, bend, offset }: Channel): Channel => ({ g, bend, offset: offset ?? 0 });
