/** What a network is made of: primitives between numbered nodes, taken down one after the other. */
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
  readonly kind: Kind | 'collector' | 'base';
  readonly index: number;
}

type Ends = [a: number, b: number];

export class Primitives {
  /** how many nodes there are beside ground, which stands past the last */
  readonly n: number;
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

  constructor(nodes: number) {
    this.n = nodes;
  }

  private place(kind: Kind, a: Node, b: Node): Device {
    const draft = this.drafts[kind];
    draft.push([this.inside(a), this.inside(b)]);
    return { kind, index: draft.length - 1 };
  }
  private inside(node: Node): number {
    return node === GROUND ? this.n : node;
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

  /** The nodes that each primitive joins, two by two. */
  protected pairs(): (readonly [a: number, b: number])[] {
    const threes = this.transistors.flatMap((t) => [[t.collector, t.base] as const, [t.base, t.emitter] as const]);
    return [...KINDS.flatMap((k) => this.drafts[k]), ...this.highDraft, ...threes];
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
}

/** All of one shape, on which the inner loop's speed depends. */
const alike = ({ g, bend, offset }: Channel): Channel => ({ g, bend, offset: offset ?? 0 });
