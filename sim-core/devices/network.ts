/**
 * A circuit of primitives between numbered nodes, as flat arrays, and its equations: Kirchhoff's current law at every node.
 * Built once per circuit; afterwards only values change (a switch's conductance, an output's state), never the pattern.
 */
import type { Equations } from '../solve/equations.ts';
import { makePattern, type Pattern, slotOf } from '../solve/pattern.ts';
import { type Channel, type CurrentAndSlope, channelLaw, clampLaw, type Junction, junctionLaw, type Supply, supplyLaw } from './laws.ts';

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

type Kind = 'conductance' | 'capacitor' | 'junction' | 'clamp' | 'output' | 'supply';
/** Names one primitive of a network. */
export interface Device {
  readonly kind: Kind;
  readonly index: number;
}

/** Elements of one kind: the two nodes and the three places in the matrix, by element. */
interface Table<P> {
  readonly a: number[];
  readonly b: number[];
  readonly slots: number[];
  readonly param: P[];
}
const table = <P>(): Table<P> => ({ a: [], b: [], slots: [], param: [] });

export class Network implements Equations {
  readonly n: number;
  pattern!: Pattern;
  private readonly conductances = table<number>();
  private readonly capacitors = table<number>();
  private readonly junctions = table<Junction>();
  private readonly clamps = table<null>();
  /** a: the pin; b: its ground pin; the supply pin and its slots stand apart */
  private readonly outputs = table<{ readonly low: Channel; readonly high: Channel }>();
  private readonly outputSupply: number[] = [];
  private readonly outputSupplySlots: number[] = [];
  private readonly pull: Pull[] = [];
  private readonly supplies = table<Supply>();
  private readonly supplyOn: boolean[] = [];
  private diagonal = new Int32Array(0);
  /** by node: which conductances end there */
  private conductancesAt: number[][] = [];
  private readonly now: CurrentAndSlope = { i: 0, g: 0 };

  /** nodes: how many there are beside ground */
  constructor(nodes: number) {
    this.n = nodes;
  }

  /** Node n stands for ground inside the arrays. */
  private place<P>(t: Table<P>, kind: Kind, a: Node, b: Node, param: P): Device {
    t.a.push(a === GROUND ? this.n : a);
    t.b.push(b === GROUND ? this.n : b);
    t.param.push(param);
    return { kind, index: t.a.length - 1 };
  }

  addConductance(a: Node, b: Node, siemens: number): Device {
    return this.place(this.conductances, 'conductance', a, b, siemens);
  }
  addCapacitor(a: Node, b: Node, farads: number): Device {
    return this.place(this.capacitors, 'capacitor', a, b, farads);
  }
  /** Conducts from a to b. */
  addJunction(a: Node, b: Node, j: Junction): Device {
    return this.place(this.junctions, 'junction', a, b, j);
  }
  /** Conducts from a to b. */
  addClamp(a: Node, b: Node): Device {
    return this.place(this.clamps, 'clamp', a, b, null);
  }
  addOutput(pin: Node, ground: Node, supply: Node, channels: { low: Channel; high: Channel }): Device {
    this.outputSupply.push(supply === GROUND ? this.n : supply);
    this.pull.push(OFF);
    return this.place(this.outputs, 'output', pin, ground, channels);
  }
  addSupply(plus: Node, minus: Node, s: Supply): Device {
    this.supplyOn.push(false);
    return this.place(this.supplies, 'supply', plus, minus, s);
  }

  /** Fixes the pattern. Nothing can be added afterwards. */
  seal(): this {
    const two = [this.conductances, this.capacitors, this.junctions, this.clamps, this.outputs, this.supplies];
    const pairs = two.flatMap((t) => t.a.map((a, k) => [a, t.b[k] as number] as const));
    const highSides = this.outputs.a.map((a, k) => [a, this.outputSupply[k] as number] as const);
    this.pattern = makePattern(
      this.n,
      [...pairs, ...highSides].filter(([a, b]) => a < this.n && b < this.n),
    );
    for (const t of two) for (const [k, a] of t.a.entries()) t.slots.push(...this.slotsOf(a, t.b[k] as number));
    for (const [a, b] of highSides) this.outputSupplySlots.push(...this.slotsOf(a, b));
    this.conductancesAt = Array.from({ length: this.n + 1 }, () => []);
    for (const [k, a] of this.conductances.a.entries()) {
      this.conductancesAt[a]?.push(k);
      this.conductancesAt[this.conductances.b[k] as number]?.push(k);
    }
    this.diagonal = Int32Array.from({ length: this.n }, (_, i) => slotOf(this.pattern, i, i));
    return this;
  }

  /** Places of (a, a), (b, b), (a, b); the place past the last takes what belongs to ground. */
  private slotsOf(a: number, b: number): [number, number, number] {
    const beyond = this.pattern.row.length;
    const at = (i: number, j: number) => (i === this.n || j === this.n ? beyond : slotOf(this.pattern, i, j));
    return a === b ? [beyond, beyond, beyond] : [at(a, a), at(b, b), at(a, b)];
  }

  conductance(d: Device): number {
    return this.conductances.param[d.index] as number;
  }
  setConductance(d: Device, siemens: number): void {
    this.conductances.param[d.index] = siemens;
  }
  /** Conductances [S] from a node straight to ground or to the plus terminal of a supply that is on: a lower bound of what holds it. */
  directConductance(node: Node): number {
    const { conductances: t, supplies, supplyOn, n } = this;
    let sum = 0;
    for (const k of this.conductancesAt[node] ?? []) {
      const other = t.a[k] === node ? (t.b[k] as number) : (t.a[k] as number);
      const stiff = other === n || supplies.a.some((plus, s) => plus === other && supplies.b[s] === n && supplyOn[s]);
      if (stiff && other !== node) sum += t.param[k] as number;
    }
    return sum;
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
    return this.supplies.param[d.index] as Supply;
  }

  evaluate(x: Float64Array, residual: Float64Array, magnitude: Float64Array, jacobian: Float64Array | null): void {
    const { n, now } = this;
    x[n] = 0;
    residual.fill(0);
    magnitude.fill(0);
    jacobian?.fill(0);
    for (let i = 0; i < n; i++) {
      residual[i] = AIR * (x[i] as number);
      if (jacobian) jacobian[this.diagonal[i] as number] = AIR;
    }
    const stamp = (t: Table<unknown>, k: number) => {
      add(t.a[k] as number, t.b[k] as number, now, residual, magnitude);
      if (jacobian) addSlope(t.slots, k, now.g, jacobian);
    };
    const across = (t: Table<unknown>, k: number) => (x[t.a[k] as number] as number) - (x[t.b[k] as number] as number);

    const { conductances, junctions, clamps, outputs, supplies } = this;
    for (let k = 0; k < conductances.a.length; k++) {
      now.g = conductances.param[k] as number;
      now.i = now.g * across(conductances, k);
      stamp(conductances, k);
    }
    for (let k = 0; k < junctions.a.length; k++) {
      junctionLaw(across(junctions, k), junctions.param[k] as Junction, now);
      stamp(junctions, k);
    }
    for (let k = 0; k < clamps.a.length; k++) {
      const v = across(clamps, k);
      if (v <= 0.5) continue;
      clampLaw(v, now);
      stamp(clamps, k);
    }
    for (let k = 0; k < outputs.a.length; k++) {
      const pull = this.pull[k] as Pull;
      if (pull === OFF) continue;
      const channels = outputs.param[k] as { low: Channel; high: Channel };
      if (pull === PULL_LOW) {
        channelLaw(across(outputs, k), channels.low, now);
        stamp(outputs, k);
      } else {
        const a = outputs.a[k] as number;
        const s = this.outputSupply[k] as number;
        channelLaw((x[a] as number) - (x[s] as number), channels.high, now);
        add(a, s, now, residual, magnitude);
        if (jacobian) addSlope(this.outputSupplySlots, k, now.g, jacobian);
      }
    }
    for (let k = 0; k < supplies.a.length; k++) {
      this.supplyCurrent(k, across(supplies, k));
      stamp(supplies, k);
    }
  }

  /** An open supply bleeds what its output capacitor holds through 1 kΩ (common practice, no source). */
  private supplyCurrent(k: number, v: number): void {
    if (this.supplyOn[k]) supplyLaw(v, this.supplies.param[k] as Supply, this.now);
    else {
      this.now.g = 1e-3;
      this.now.i = v * 1e-3;
    }
  }

  addMass(values: Float64Array, scale: number): void {
    const { capacitors: t } = this;
    for (let k = 0; k < t.a.length; k++) addSlope(t.slots, k, (t.param[k] as number) * scale, values);
  }

  massTimes(x: Float64Array, out: Float64Array): void {
    const { capacitors: t, n } = this;
    x[n] = 0;
    out.fill(0);
    for (let k = 0; k < t.a.length; k++) {
      const a = t.a[k] as number;
      const b = t.b[k] as number;
      const q = (t.param[k] as number) * ((x[a] as number) - (x[b] as number));
      out[a] = (out[a] as number) + q;
      out[b] = (out[b] as number) - q;
    }
  }

  /** Current [A] from the device's first node into it at the node voltages x; a capacitor's is not known from voltages and reads 0. */
  current(d: Device, x: Float64Array): number {
    const { now } = this;
    x[this.n] = 0;
    const v = (t: Table<unknown>) => (x[t.a[d.index] as number] as number) - (x[t.b[d.index] as number] as number);
    switch (d.kind) {
      case 'conductance':
        return (this.conductances.param[d.index] as number) * v(this.conductances);
      case 'junction':
        junctionLaw(v(this.junctions), this.junctions.param[d.index] as Junction, now);
        return now.i;
      case 'clamp':
        clampLaw(v(this.clamps), now);
        return now.i;
      case 'supply':
        this.supplyCurrent(d.index, v(this.supplies));
        return now.i;
      case 'output': {
        const pull = this.pull[d.index] as Pull;
        if (pull === OFF) return 0;
        const channels = this.outputs.param[d.index] as { low: Channel; high: Channel };
        if (pull === PULL_LOW) channelLaw(v(this.outputs), channels.low, now);
        else channelLaw((x[this.outputs.a[d.index] as number] as number) - (x[this.outputSupply[d.index] as number] as number), channels.high, now);
        return now.i;
      }
      case 'capacitor':
        return 0;
    }
  }
}

function add(a: number, b: number, now: CurrentAndSlope, residual: Float64Array, magnitude: Float64Array): void {
  const size = Math.abs(now.i);
  residual[a] = (residual[a] as number) + now.i;
  residual[b] = (residual[b] as number) - now.i;
  magnitude[a] = (magnitude[a] as number) + size;
  magnitude[b] = (magnitude[b] as number) + size;
}

function addSlope(slots: readonly number[], k: number, g: number, values: Float64Array): void {
  const s = 3 * k;
  const aa = slots[s] as number;
  const bb = slots[s + 1] as number;
  const ab = slots[s + 2] as number;
  values[aa] = (values[aa] as number) + g;
  values[bb] = (values[bb] as number) + g;
  values[ab] = (values[ab] as number) - g;
}
