/** How a bench that was laid out falls into rails and blocks: which metal is stiff, what is joined by parts, and a key for each by which equal ones are known. */
import type { Plan } from '../../../shared/plan.ts';
import type { Layout, Leg } from '../../board/layout.ts';
import { stripAt } from '../../board/tie-points.ts';
import type { Supply } from '../../devices/device-models.ts';
import { compareTexts } from '../../units/text-list.ts';
import { Joined } from './joined.ts';
import type { PartChip, PartElements, Texts } from './part-elements.ts';

/** Where metal is: a node of a block; or ground (block −1), or rail r (block −2 − r). */
export interface MetalPlace {
  readonly block: number;
  readonly node: number;
}

export const GROUNDED = -1;
export const RAILED = -2;

/** A chip, and where its pins are. */
export interface BenchChip {
  readonly part: string;
  readonly chip: PartChip;
  /** the rail that it stands on; −1: it does not stand between a rail and ground, and so can only be one that has no supply */
  readonly rail: number;
  readonly supply: MetalPlace;
  readonly ground: MetalPlace;
  /** by input, where it is */
  readonly inputs: readonly MetalPlace[];
}

/** One block while it is found; its lists are in the order in which its model has them. */
export class BlockDraft {
  readonly key: number[] = [];
  readonly parts: PartElements[] = [];
  readonly contacts: { readonly part: string; readonly pole: number }[] = [];
  readonly outputs: { readonly chip: number; readonly output: number }[] = [];
  readonly inputs: { readonly chip: number; readonly input: number }[] = [];
  readonly leds: string[] = [];
  /** nodes that meters load, GROUNDED for ground */
  readonly loads: (readonly [number, number])[] = [];
  nodes = 0;
  rail = -1;

  constructor(readonly number: number) {}
}

/** One rail while it is found, with the parts that stand between it and ground alone; what of these has states, in the order in which its model has it. */
export interface RailDraft {
  readonly supply: Supply;
  readonly isOn: boolean;
  readonly key: number[];
  readonly parts: PartElements[];
  readonly contacts: { readonly part: string; readonly pole: number }[];
  readonly outputs: { readonly chip: number; readonly output: number }[];
}

/** Signs between the numbers of a key. */
const [PART, CONTACT, INPUT, OUTPUT, LOAD] = [-10, -11, -12, -13, -14] as const;
/** No voltage of a bench comes so far above its highest rail. */
const ABOVE_RAIL = 1.2;

export class Assembly {
  private readonly plan: Plan;
  /** strips that wires make one; a net is known by the number of one of its strips */
  private readonly metal: Joined;
  /** nets that parts join into blocks */
  private readonly joined: Joined;
  /** by net: GROUNDED, RAILED − r, or 0 */
  private readonly stiff: Int32Array;
  /** by net: its node in its block, or −1 while it has none */
  private readonly node: Int32Array;
  /** by net: 1 where something is */
  private readonly used: Uint8Array;
  /** by net that stands for a block */
  private readonly draftAt: (BlockDraft | undefined)[] = [];
  /** by part, then by leg */
  private readonly legNets: readonly Int32Array[];
  readonly blocks: BlockDraft[] = [];
  readonly rails: RailDraft[] = [];
  readonly chips: BenchChip[] = [];

  /** strips: their numbers. */
  constructor(
    layout: Layout,
    private readonly parts: readonly PartElements[],
    private readonly strips: Texts,
  ) {
    this.plan = layout.plan;
    const { ends } = layout;
    const touched = new Int32Array(ends.length);
    for (let i = 0; i < ends.length; i++) touched[i] = strips.of((ends[i] as (typeof ends)[number]).strip);
    const { count } = strips;
    this.metal = new Joined(count);
    this.joined = new Joined(count);
    for (let i = 0; i + 1 < touched.length; i += 2) this.metal.join(touched[i] as number, touched[i + 1] as number);
    this.stiff = new Int32Array(count);
    this.node = new Int32Array(count).fill(-1);
    this.used = new Uint8Array(count);
    for (const strip of touched) this.used[this.metal.root(strip)] = 1;
    this.legNets = parts.map(({ strips: own }) => {
      const nets = new Int32Array(own.length);
      for (let k = 0; k < own.length; k++) {
        const net = this.metal.root(own[k] as number);
        nets[k] = net;
        this.used[net] = 1;
      }
      return nets;
    });
  }

  /** Fills `blocks`, `rails` and `chips`; false where the bench is more than blocks that each lean on one rail. */
  find(): boolean {
    if (this.plan.wiring === 'real' || !this.parts.every((p) => p.isPlain) || !this.findRails()) return false;
    this.join();
    return this.parts.every((part, i) => this.describe(part, this.legNets[i] as Int32Array)) && this.putLoads() && this.placeChips();
  }

  /** What is at this strip, where a wire alone is as good as ground; undefined where nothing is. */
  at(strip: string): MetalPlace | undefined {
    const number = this.strips.of(strip);
    if (number >= this.stiff.length) return undefined;
    const net = this.metal.root(number);
    return this.used[net] === 1 ? (this.placeOf(net) ?? { block: GROUNDED, node: 0 }) : undefined;
  }

  private placeOf(net: number): MetalPlace | undefined {
    const on = this.stiff[net] as number;
    if (on !== 0) return { block: on, node: 0 };
    const draft = this.draftAt[this.joined.root(net)];
    return draft && { block: draft.number, node: this.node[net] as number };
  }

  /** Each supply is between ground and a rail of its own; one that is shorted feeds nothing. */
  private findRails(): boolean {
    const supplies = this.parts
      .flatMap(({ supplies: own, placed }, i) =>
        own.map(({ legs, model }) => ({ id: placed.part.id, model, nets: legs.map((l) => this.legNets[i]?.[l] ?? -1) })),
      )
      .sort((a, b) => compareTexts(a.id, b.id));
    const ground = supplies[0]?.nets[1];
    if (ground === undefined) return false;
    this.stiff[ground] = GROUNDED;
    for (const { id, model, nets } of supplies) {
      const [plus, minus] = nets as [number, number];
      if (minus !== ground || (this.stiff[plus] as number) <= RAILED) return false;
      const isShorted = plus === ground;
      if (!isShorted) this.stiff[plus] = RAILED - this.rails.length;
      this.rails.push({
        supply: model,
        isOn: !isShorted && this.plan.switches[id]?.[0] === true,
        key: [],
        parts: [],
        contacts: [],
        outputs: [],
      });
    }
    return true;
  }

  private join(): void {
    const { joined, stiff } = this;
    for (const [i, { elements }] of this.parts.entries()) {
      const nets = this.legNets[i] as Int32Array;
      for (let e = 0; e < elements.length; e++) {
        const { legs } = elements[e] as PartElements['elements'][number];
        let first = -1;
        for (let k = 0; k < legs.length; k++) {
          const net = nets[legs[k] as number] as number;
          if (stiff[net] !== 0) continue;
          if (first < 0) first = net;
          else joined.join(first, net);
        }
      }
    }
    for (const [a, b] of this.loads()) if (b >= 0 && stiff[a] === 0 && stiff[b] === 0) joined.join(a, b);
  }

  /** Nets that meters load; the second is −1 for ground. */
  private loads(): [number, number][] {
    const net = (point: string): number => {
      const strip = this.strips.of(stripAt(point, this.plan.boards));
      return strip < this.stiff.length ? this.metal.root(strip) : -1;
    };
    return [...this.plan.meters]
      .sort((a, b) => compareTexts(a.id, b.id))
      .flatMap((meter): [number, number][] => {
        if (meter.measures === 'amps' || net(meter.at) < 0) return [];
        return [[net(meter.at), meter.measures === 'volts' && meter.against !== undefined ? net(meter.against) : -1]];
      });
  }

  /** The block of this part's leg, with the part in its key; undefined on a rail or ground. */
  private draftOf(net: number, part: PartElements | undefined): BlockDraft | undefined {
    if (this.stiff[net] !== 0) return undefined;
    const root = this.joined.root(net);
    let draft = this.draftAt[root];
    if (!draft) {
      draft = new BlockDraft(this.blocks.length);
      this.draftAt[root] = draft;
      this.blocks.push(draft);
    }
    if (part && draft.parts.at(-1) !== part) {
      draft.parts.push(part);
      draft.key.push(PART);
    }
    return draft;
  }

  private nameOf(net: number, draft: BlockDraft): number {
    const on = this.stiff[net] as number;
    if (on !== 0) return on === GROUNDED ? GROUNDED : RAILED;
    if (this.node[net] === -1) this.node[net] = draft.nodes++;
    return this.node[net] as number;
  }

  /** One part into the keys of its blocks and its rail. */
  private describe(part: PartElements, nets: Int32Array): boolean {
    for (let e = 0; e < part.elements.length; e++) {
      const { legs, text } = part.elements[e] as PartElements['elements'][number];
      if (!this.put(part, legs, text, nets)) return false;
    }
    const { id } = part.placed.part;
    const firstDraft = (legs: readonly number[]) =>
      this.draftOf(nets[legs[0] as number] as number, part) ?? this.draftOf(nets[legs[1] as number] as number, part);
    for (const { pole, legs } of part.contacts) {
      const draft = firstDraft(legs);
      if (!draft) {
        this.railBetween(legs, nets)?.contacts.push({ part: id, pole });
        continue;
      }
      draft.key.push(CONTACT, ...legs.map((leg) => this.nameOf(nets[leg] as number, draft)));
      draft.contacts.push({ part: id, pole });
    }
    for (const led of part.leds) {
      const draft = firstDraft(led.legs);
      if (!draft) return false;
      draft.leds.push(led.id);
    }
    for (const chip of part.chips) this.describePins(part, chip, nets);
    return true;
  }

  /** The rail that these legs join with ground, if they join nothing else. */
  private railBetween(legs: readonly number[], nets: Int32Array): RailDraft | undefined {
    let rail = -1;
    for (const leg of legs) {
      const on = this.stiff[nets[leg] as number] as number;
      if (on === 0) return undefined;
      if (on <= RAILED) rail = RAILED - on;
    }
    return legs.some((leg) => this.stiff[nets[leg] as number] === GROUNDED) ? this.rails[rail] : undefined;
  }

  private describePins(part: PartElements, chip: PartChip, nets: Int32Array): void {
    const number = this.chips.length;
    const { supply, ground, inputs, outputs } = chip.site;
    for (const [output, { node }] of outputs.entries()) {
      const net = nets[node] as number;
      const draft = this.draftOf(net, part);
      if (!draft) {
        this.railBetween([node, ground.node, supply.node], nets)?.outputs.push({ chip: number, output });
        continue;
      }
      draft.key.push(OUTPUT, chip.outputs[output] as number, this.nameOf(net, draft));
      draft.outputs.push({ chip: number, output });
    }
    for (const [input, { node }] of inputs.entries()) {
      const net = nets[node] as number;
      const draft = this.draftOf(net, part);
      if (!draft) continue;
      draft.key.push(INPUT, chip.inputs[input] as number, this.nameOf(net, draft));
      draft.inputs.push({ chip: number, input });
    }
    const at = (leg: number) => this.placeOf(nets[leg] as number) as MetalPlace;
    const places = { supply: at(supply.node), ground: at(ground.node), inputs: inputs.map((pin) => at(pin.node)) };
    this.chips.push({ part: part.placed.part.id, chip, rail: -1, ...places });
  }

  /** One element into its block, or onto its rail; false where it is between two rails, or its block leans on two. */
  private put(part: PartElements, legs: Int32Array, text: number, nets: Int32Array): boolean {
    let draft: BlockDraft | undefined;
    let rail = -1;
    for (let k = 0; k < legs.length; k++) {
      const net = nets[legs[k] as number] as number;
      const on = this.stiff[net] as number;
      if (on === 0) draft ??= this.draftOf(net, part);
      else if (on <= RAILED) {
        if (rail >= 0 && rail !== RAILED - on) return false;
        rail = RAILED - on;
      }
    }
    if (!draft) {
      const own = this.rails[rail];
      own?.key.push(text);
      for (let k = 0; own && k < legs.length; k++) own.key.push(this.stiff[nets[legs[k] as number] as number] as number);
      if (own && own.parts.at(-1) !== part) own.parts.push(part);
      return true;
    }
    if (rail >= 0 && draft.rail >= 0 && rail !== draft.rail) return false;
    if (rail >= 0) draft.rail = rail;
    draft.key.push(text);
    for (let k = 0; k < legs.length; k++) draft.key.push(this.nameOf(nets[legs[k] as number] as number, draft));
    return true;
  }

  /** What meters load; false for one on a rail. */
  private putLoads(): boolean {
    return this.loads().every(([a, b]) => {
      const draft = this.draftOf(a, undefined) ?? (b >= 0 ? this.draftOf(b, undefined) : undefined);
      if (!draft) return false;
      const ends = [this.nameOf(a, draft), b < 0 ? GROUNDED : this.nameOf(b, draft)] as const;
      draft.key.push(LOAD, ...ends);
      draft.loads.push(ends);
      return !ends.includes(RAILED);
    });
  }

  /** Which rail each chip stands on, if it stands between one and ground; its thresholds are parts of that rail. */
  private placeChips(): boolean {
    const highest = Math.max(...this.rails.map((r) => r.supply.volts));
    for (const [k, bench] of this.chips.entries()) {
      const { supply, ground, chip } = bench;
      // voltages of what hangs on a ground that nothing holds are what leaks
      if (ground.block >= 0) return false;
      if (supply.block > RAILED || ground.block !== GROUNDED) continue;
      const { inputs, marks, spec } = chip.site;
      const nets = this.netsOfPart(bench.part);
      if (inputs.some(({ of }) => of !== undefined && this.placeOf(nets[of] as number)?.block !== supply.block)) return false;
      if (marks.some((_, m) => (spec.marks?.[m]?.volts ?? 0) <= ABOVE_RAIL * highest)) return false;
      this.chips[k] = { ...bench, rail: RAILED - supply.block };
    }
    return true;
  }

  private netsOfPart(id: string): Int32Array {
    return this.legNets[this.parts.findIndex((p) => p.placed.part.id === id)] as Int32Array;
  }

  /** The node of a leg in this block's own circuit: ground, a node of the block, its rail after them, or the rest of the bench after that. */
  nodeIn(draft: BlockDraft, leg: Leg): number {
    const place = this.at(leg.strip);
    if (place?.block === GROUNDED) return -1;
    if (place?.block === draft.number) return place.node;
    return place?.block === RAILED - Math.max(0, draft.rail) ? draft.nodes : draft.nodes + 1;
  }
}
