/**
 * A circuit of primitives between numbered nodes, as flat arrays, and its equations: Kirchhoff's current law at every node.
 * Built once per circuit; afterwards only values change (a switch's conductance, an output's state), never the pattern.
 */
import type { Equations, Skew } from '../solve/equations.ts';
import { makePattern, type Pattern, slotOf } from '../solve/pattern.ts';
import { type Coil, stampCoils } from './coil.ts';
import { type Channel, type CurrentAndSlope, channelLaw, clampLaw, junctionLaw, type ReadyJunction, type Supply } from './device-models.ts';
import { addChannels, addClamps, addConductances, addJunctions, addSupplies, type Sums, switchedSupplyLaw } from './elements.ts';
import { mergeParallel, type ParallelGroup } from './parallel-reduction.ts';
import { type Device, GROUND, KINDS, type Kind, type Node, OFF, Primitives, PULL_HIGH, PULL_LOW, type Pull } from './primitives.ts';
import { completeFolds, findSeriesBranches, type SeriesBranch } from './series-reduction.ts';
import { addRounding, addSlope, type ElementTable, tableOf } from './stamp.ts';
import { clampsAreStraight, outputsAreOff, suppliesAreStraight, type Way } from './straight.ts';
import { skewOf, stampTransistors, type Transistor, transistorCurrents } from './transistor.ts';

export { type Channels, type Device, GROUND, type Node, OFF, PULL_HIGH, PULL_LOW, type Pull } from './primitives.ts';

/** Every node leaks this to ground [S], so that a floating one still has a voltage; 10⁵ times below a 10 MΩ meter. */
export const LEAKAGE_TO_GROUND = 1e-12;

/** Elements that add what they carry at the node voltages x. */
type Group = (x: Float64Array, sums: Sums) => void;

const EMPTY = new Int32Array(0);

export class Network extends Primitives implements Equations {
  pattern!: Pattern;
  private readonly tables = Object.fromEntries(KINDS.map((k) => [k, { a: EMPTY, b: EMPTY, slots: EMPTY }])) as Record<Kind, ElementTable>;
  /** an output pulls high against its own supply node */
  private highSide: ElementTable = { a: EMPTY, b: EMPTY, slots: EMPTY };
  /** by output, as bytes once sealed */
  private pull: Uint8Array = new Uint8Array(0);
  /** by transistor of the network this one was extracted from; see Equations */
  skew?: Skew;
  /** share of the supplies' voltages that counts while a hard problem is being approached */
  private share = 1;
  private clamps!: ParallelGroup;
  private capacitors!: ParallelGroup;
  private diagonal = EMPTY;
  /** the conductances that may change */
  private movable = EMPTY;
  /** a fixed resistor and a junction with nothing else on the node between them; see `unfolded` */
  private folds: readonly SeriesBranch[] = [];
  /** by junction: its fold, or −1 */
  private foldOf = EMPTY;
  /** currents [A] that leave each node by ways that are not part of this network; see `restAt` */
  private elsewhere = new Float64Array(0);
  private parent: { readonly network: Network; readonly index: Readonly<Record<Kind, Int32Array>> } | undefined;
  private readonly now: CurrentAndSlope = { i: 0, g: 0 };
  private groups: readonly Group[] = [];
  private readonly sums: Sums = { residual: this.elsewhere, magnitude: this.elsewhere, jacobian: null };

  /** Fixes the pattern. Nothing can be added afterwards. mayFold: false keeps every node among those that are solved for. */
  seal(mayFold = true): this {
    this.placeGround();
    this.elsewhere = new Float64Array(this.n);
    const all = this.pairs();
    if (this.transistors.length + this.coils.length > 0) this.skew = skewOf(this.transistors, this.coils);
    this.pattern = makePattern(
      this.n,
      all.filter(([a, b]) => a < this.n && b < this.n),
      new Set(this.skew && [...this.skew.rows].filter((row) => row < this.n)),
    );
    for (const k of KINDS) this.tables[k] = tableOf(this.drafts[k], this.pattern);
    this.highSide = tableOf(this.highDraft, this.pattern);
    this.clamps = mergeParallel(this.tables.clamp, new Float64Array(this.tables.clamp.a.length).fill(1));
    this.capacitors = mergeParallel(this.tables.capacitor, this.farads);
    this.siemens = Float64Array.from(this.siemens);
    this.movable = Int32Array.from([...this.siemens.keys()].filter((k) => !this.fixed[k]));
    this.pull = new Uint8Array(this.lowChannels.length).fill(OFF);
    this.diagonal = Int32Array.from({ length: this.n }, (_, i) => slotOf(this.pattern, i, i));
    const resistors = this.drafts.conductance
      .map((ends, k) => ({ ends, ohms: 1 / (this.siemens[k] as number) }))
      .filter((_, k) => this.fixed[k]);
    const junctions = this.drafts.junction.map((ends, k) => ({ ends, law: this.junctions[k] as ReadyJunction }));
    this.folds = mayFold ? findSeriesBranches(all, resistors, junctions, this.n) : [];
    this.foldOf = Int32Array.from(junctions, (_, k) => this.folds.findIndex((f) => f.junction === k));
    this.groups = this.groupsOf();
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

  /**
   * The part of this network between some of its unfolded nodes and ground, numbered in the order given.
   * Its values follow this network's at every `follow`. without: what joins only these and ground is left out.
   */
  extract(nodes: readonly Node[], without: readonly Node[] = []): Network {
    const part = new Network(nodes.length);
    const local = new Map<number, Node>(nodes.map((node, i) => [node, i]));
    local.set(this.n, GROUND);
    const isOutside = (i: number, j: number) => [i, j].every((node) => node === this.n || without.includes(node));
    const index = Object.fromEntries(KINDS.map((k) => [k, [] as number[]])) as Record<Kind, number[]>;
    for (const kind of KINDS)
      for (const [k, [a, b]] of this.drafts[kind].entries()) {
        const high = kind === 'output' ? (this.highDraft[k]?.[1] as number) : b;
        const i = local.get(a);
        const j = local.get(b);
        const h = local.get(high);
        if (i === undefined || j === undefined || h === undefined || (without.length > 0 && isOutside(a, b))) continue;
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
    for (const coil of this.coils) {
      const [a, b, inner] = [local.get(coil.a), local.get(coil.b), local.get(coil.inner)];
      if (a !== undefined && b !== undefined && inner !== undefined) part.coils.push({ ...coil, a, b, inner });
    }
    for (const f of this.folds) {
      const i = local.get(f.from);
      const j = local.get(f.to);
      if (i === undefined || j === undefined || local.has(f.middle)) continue;
      if (without.length === 0 || !isOutside(f.from, f.to)) part.addJunction(i, j, f.law);
    }
    const places = Object.fromEntries(KINDS.map((k) => [k, Int32Array.from(index[k])])) as Record<Kind, Int32Array>;
    part.parent = { network: this, index: places };
    return part.seal();
  }

  /** Which conductance or output here stands for that one of the network that this was extracted from. */
  within({ kind, index }: Device): Device {
    return { kind, index: this.parent?.index[kind as Kind].indexOf(index) ?? -1 };
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

  /** A current [A] more that leaves this node by a way that is not part of this network, until the next `restAt`. */
  draw(node: Node, amps: number): void {
    this.elsewhere[node] = (this.elsewhere[node] as number) + amps;
  }

  /** Scales all supplies, to approach a circuit that cannot be solved at once. */
  ease(share: number): void {
    this.share = share;
  }
  /** Everything that changes once it is sealed: while two of these are the same text, so are the equations. */
  state(): string {
    let text = `${this.pull.join('')} ${this.supplyOn.join('')}`;
    for (let k = 0; k < this.movable.length; k++) text += ` ${this.siemens[this.movable[k] as number]}`;
    return text;
  }
  conductance(d: Device): number {
    return this.siemens[d.index] as number;
  }
  /** of a capacitor [F] */
  faradsOf(capacitor: Device): number {
    return this.farads[capacitor.index] as number;
  }
  /** of a coil's wire [Ω] */
  ohmsOf(coil: Device): number {
    return (this.coils[coil.index] as Coil).ohms;
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
    const { n, diagonal, elsewhere, sums, groups } = this;
    sums.residual = residual;
    sums.magnitude = magnitude;
    sums.jacobian = jacobian;
    x[n] = 0;
    // loops, since the arrays are short
    if (jacobian) for (let k = 0; k < jacobian.length; k++) jacobian[k] = 0;
    magnitude[n] = 0;
    for (let i = 0; i < n; i++) {
      residual[i] = LEAKAGE_TO_GROUND * (x[i] as number) + (elsewhere[i] as number);
      magnitude[i] = 0;
      if (jacobian) jacobian[diagonal[i] as number] = LEAKAGE_TO_GROUND;
    }
    for (let k = 0; k < groups.length; k++) (groups[k] as Group)(x, sums);
  }

  /**
   * Elements of one kind each, in the order in which they are added up. As values and not as calls, so that a compiler takes each loop by itself, whole:
   * together they are too long for it, and what it leaves out costs a heap number for every voltage that is passed.
   */
  private groupsOf(): readonly Group[] {
    const { tables, junctions, lowChannels, highChannels, highSide, clamps, pull, supplies, supplyOn, transistors, coils, skew, now } =
      this;
    const siemens = this.siemens as Float64Array;
    const all: Group[] = [
      (x, sums) => addConductances(tables.conductance, siemens, x, sums),
      (x, sums) => addJunctions(tables.junction, junctions, x, sums, now),
      (x, sums) => addClamps(clamps, x, sums, now),
      (x, sums) => addChannels(tables.output, lowChannels, pull, PULL_LOW, x, sums, now),
      (x, sums) => addChannels(highSide, highChannels, pull, PULL_HIGH, x, sums, now),
      (x, sums) => addSupplies(tables.supply, supplies, supplyOn, this.share, x, sums, now),
    ];
    if (skew)
      all.push(
        (x, { residual, magnitude, jacobian }) => stampTransistors(transistors, x, residual, magnitude, jacobian && skew, now),
        (x, { residual, magnitude, jacobian }) => stampCoils(coils, x, residual, magnitude, jacobian && skew, 9 * transistors.length),
      );
    return all;
  }

  /** Can its equations be linear at all? */
  get mayBeLinear(): boolean {
    return this.skew === undefined && this.junctions.length === 0;
  }

  /** Of a network that may be: is every current a straight line on this way? */
  isLinearOn(way: Way): boolean {
    return (
      outputsAreOff(this.pull) &&
      clampsAreStraight(this.clamps, way) &&
      suppliesAreStraight(this.tables.supply, this.supplies, this.supplyOn, way)
    );
  }

  addMass(values: Float64Array, scale: number): void {
    const { slots, total } = this.capacitors;
    for (let k = 0; k < total.length; k++) addSlope(slots, k, (total[k] as number) * scale, values);
  }

  /** Adds what the last digits of x are worth through scale·M, as that of stiff conductances is added. */
  massRounding(x: Float64Array, scale: number, magnitude: Float64Array): void {
    const { a, b, total } = this.capacitors;
    for (let k = 0; k < a.length; k++) addRounding(a[k] as number, b[k] as number, (total[k] as number) * scale, x, magnitude);
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

  /** Current [A] from the device's first node into it at the node voltages x; a capacitor's is not known from voltages and reads 0. */
  current(d: Device, x: Float64Array): number {
    return this.flow(d, x).i;
  }

  /** That current, and by how much it grows with the device's voltage [S], which of a transistor is not told, and of a coil is that at rest; written again by every call. */
  flow(d: Device, x: Float64Array): Readonly<CurrentAndSlope> {
    const { now } = this;
    const k = d.index;
    x[this.n] = 0;
    const fold = d.kind === 'junction' ? this.folds[this.foldOf[k] as number] : undefined;
    if (fold) {
      junctionLaw((x[fold.from] as number) - (x[fold.to] as number), fold.law, now);
      return now;
    }
    now.g = 0;
    if (d.kind === 'collector' || d.kind === 'base') {
      now.i = transistorCurrents(this.transistors[k] as Transistor, x, now)[d.kind];
      return now;
    }
    if (d.kind === 'coil') {
      const { a, b, inner, gain, across, ohms } = this.coils[k] as Coil;
      now.i = gain * (x[inner] as number) + across * ((x[a] as number) - (x[b] as number));
      now.g = 1 / ohms;
      return now;
    }
    const table = d.kind === 'output' && this.pull[k] === PULL_HIGH ? this.highSide : this.tables[d.kind];
    const v = (x[table.a[k] as number] as number) - (x[table.b[k] as number] as number);
    now.i = 0;
    if (d.kind === 'conductance') {
      now.g = this.siemens[k] as number;
      now.i = now.g * v;
    } else if (d.kind === 'junction') junctionLaw(v, this.junctions[k] as ReadyJunction, now);
    else if (d.kind === 'clamp') clampLaw(v, now);
    else if (d.kind === 'supply') switchedSupplyLaw(v, this.supplies[k] as Supply, this.supplyOn[k] === true, this.share, now);
    else if (d.kind === 'output' && this.pull[k] === PULL_LOW) channelLaw(v, this.lowChannels[k] as Channel, now);
    else if (d.kind === 'output' && this.pull[k] === PULL_HIGH) channelLaw(v, this.highChannels[k] as Channel, now);
    return now;
  }
}
