/** What a network is made of: primitives between numbered nodes, taken down one after the other. */
import { type Coil, type CoilModel, coilLaw } from './coil.ts';
import { type Channel, type Junction, type ReadyJunction, readyJunction, type Supply } from './device-models.ts';
import type { Transistor, TransistorModel } from './transistor.ts';

/** A node's number, or GROUND for the reference. */
export type Node = number;
export const GROUND: Node = -1;

/** What an output does to its pin: nothing, pulls to its ground pin, pulls to its supply pin. */
export const OFF = 0;
export const PULL_LOW = 1;
export const PULL_HIGH = 2;
export type Pull = typeof OFF | typeof PULL_LOW | typeof PULL_HIGH;

export interface Channels {
  readonly low: Channel;
  readonly high: Channel;
}

export const KINDS = ['conductance', 'capacitor', 'junction', 'clamp', 'output', 'supply'] as const;
export type Kind = (typeof KINDS)[number];

/** Names one primitive of a network. */
export interface Device {
  /** a transistor counts as two: what enters at its collector, and what enters at its base */
  readonly kind: Kind | 'collector' | 'base' | 'coil';
  readonly index: number;
}

type Ends = [a: number, b: number];

export class Primitives {
  /** how many nodes there are beside ground, which stands past the last */
  n: number;
  protected readonly drafts = Object.fromEntries(KINDS.map((k) => [k, [] as Ends[]])) as Record<Kind, Ends[]>;
  /** an output pulls high against its own supply node */
  protected readonly highDraft: Ends[] = [];
  protected siemens: number[] | Float64Array = [];
  /** by conductance: a part that never changes its value */
  protected readonly fixed: boolean[] = [];
  protected readonly farads: number[] = [];
  protected readonly junctions: ReadyJunction[] = [];
  protected readonly lowChannels: Channel[] = [];
  protected readonly highChannels: Channel[] = [];
  protected readonly supplies: Supply[] = [];
  protected readonly supplyOn: boolean[] = [];
  protected readonly transistors: Transistor[] = [];
  protected readonly coils: Coil[] = [];

  constructor(nodes: number) {
    this.n = nodes;
  }

  private place(kind: Kind, a: Node, b: Node): Device {
    const draft = this.drafts[kind];
    draft.push([a, b]);
    return { kind, index: draft.length - 1 };
  }

  /** a node inside a part */
  addNode(): Node {
    this.n += 1;
    return this.n - 1;
  }

  /** All nodes are there: ground takes its place past the last. */
  protected placeGround(): void {
    const inside = (node: Node): number => (node === GROUND ? this.n : node);
    for (const ends of [...KINDS.flatMap((k) => this.drafts[k]), ...this.highDraft])
      for (const side of [0, 1] as const) ends[side] = inside(ends[side]);
    for (const [k, t] of this.transistors.entries())
      this.transistors[k] = { ...t, collector: inside(t.collector), base: inside(t.base), emitter: inside(t.emitter) };
    for (const [k, c] of this.coils.entries()) this.coils[k] = { ...c, a: inside(c.a), b: inside(c.b) };
  }

  /** changes: its value will be set again, as a switch's is */
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
    this.highDraft.push([pin, supply]);
    return this.place('output', pin, ground);
  }
  addTransistor(collector: Node, base: Node, emitter: Node, model: TransistorModel): readonly [collector: Device, base: Device] {
    this.transistors.push({ collector, base, emitter, model });
    const index = this.transistors.length - 1;
    return [
      { kind: 'collector', index },
      { kind: 'base', index },
    ];
  }
  /** Its inner node is one more. */
  addCoil(a: Node, b: Node, model: CoilModel): Device {
    const { gain, across, tie, farads } = coilLaw(model);
    const inner = this.addNode();
    this.addConductance(inner, GROUND, tie);
    this.addCapacitor(inner, GROUND, farads);
    if (across > 0) this.addConductance(a, b, across);
    this.coils.push({ a, b, inner, gain, across, ohms: model.ohms });
    return { kind: 'coil', index: this.coils.length - 1 };
  }
  /** the node that keeps a coil's current */
  innerNodeOf(coil: Device): Node {
    return (this.coils[coil.index] as Coil).inner;
  }
  addSupply(plus: Node, minus: Node, s: Supply): Device {
    this.supplies.push(s);
    this.supplyOn.push(false);
    return this.place('supply', plus, minus);
  }

  /** The nodes that each primitive joins, two by two. */
  protected pairs(): (readonly [a: number, b: number])[] {
    const threes = this.transistors.flatMap((t) => [[t.collector, t.base] as const, [t.base, t.emitter] as const]);
    const inner = this.coils.flatMap((c) => [[c.a, c.inner] as const, [c.inner, c.b] as const]);
    return [...KINDS.flatMap((k) => this.drafts[k]), ...this.highDraft, ...threes, ...inner];
  }

  /** Every primitive's two nodes (GROUND for the reference); an output's supply side counts as one more. */
  *couplings(): Generator<readonly [a: Node, b: Node]> {
    const outside = (i: number): Node => (i === this.n ? GROUND : i);
    for (const [a, b] of this.pairs()) yield [outside(a), outside(b)];
  }
  /** Every primitive but transistors: its nodes, and all else that makes it what it is, as text; a conductance that changes, for which `varies` answers, by that. */
  *described(varies: ReadonlyMap<number, string>): Generator<{ readonly nodes: readonly Node[]; readonly text: string }> {
    const outside = (i: number | undefined): Node => (i === undefined || i === this.n ? GROUND : i);
    const texts: Readonly<Record<Kind, (k: number) => string>> = {
      conductance: (k) => varies.get(k) ?? `${this.siemens[k]}`,
      capacitor: (k) => `${this.farads[k]}`,
      junction: (k) => JSON.stringify(this.junctions[k]),
      clamp: () => '',
      output: (k) => JSON.stringify([this.lowChannels[k], this.highChannels[k]]),
      supply: (k) => JSON.stringify(this.supplies[k]),
    };
    for (const kind of KINDS)
      for (const [k, ends] of this.drafts[kind].entries()) {
        const nodes = (kind === 'output' ? [...ends, this.highDraft[k]?.[1]] : ends).map(outside);
        yield { nodes, text: `${kind} ${texts[kind](k)}` };
      }
  }
  /** The two nodes of a device. */
  nodesOf(d: Device): readonly [a: Node, b: Node] {
    const [a, b] = this.endsOf(d);
    return [a === this.n ? GROUND : a, b === this.n ? GROUND : b];
  }
  /** With ground past the last. */
  protected endsOf({ kind, index }: Device): readonly [number, number] {
    if (kind === 'coil') {
      const { a, b } = this.coils[index] as Coil;
      return [a, b];
    }
    if (kind !== 'collector' && kind !== 'base') return this.drafts[kind][index] as [number, number];
    const t = this.transistors[index] as Transistor;
    return [kind === 'base' ? t.base : t.collector, t.emitter];
  }
}

/** All of one shape, on which the inner loop's speed depends. */
const alike = ({ g, bend, offset }: Channel): Channel => ({ g, bend, offset: offset ?? 0 });
