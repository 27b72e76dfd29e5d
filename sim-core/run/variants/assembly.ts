/** How a bench that was laid out falls into rails and blocks: which metal is stiff, what is joined by parts, and a key for each by which equal ones are known. */
import type { Plan } from '../../../shared/plan.ts';
import type { Layout, Leg } from '../../board/layout.ts';
import { findNets, type Nets } from '../../board/nets.ts';
import { stripAt } from '../../board/tie-points.ts';
import type { Supply } from '../../devices/device-models.ts';
import { compareTexts } from '../../units/text-list.ts';
import type { PartChip, PartElements } from './part-elements.ts';

/** Where metal is: a node of a block; or ground (block −1), or rail r (block −2 − r). */
export interface MetalPlace {
  readonly block: number;
  readonly node: number;
}

export const GROUNDED = -1;
export const RAILED = -2;

/** A chip between a rail and ground. */
export interface BenchChip {
  readonly part: string;
  readonly chip: PartChip;
  readonly rail: number;
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

/** One rail while it is found, with the parts that stand between it and ground alone. */
export interface RailDraft {
  readonly supply: Supply;
  readonly key: number[];
  readonly parts: PartElements[];
}

/** Signs between the numbers of a key. */
const [PART, CONTACT, INPUT, OUTPUT, LOAD] = [-10, -11, -12, -13, -14] as const;
/** No voltage of a bench comes so far above its highest rail. */
const ABOVE_RAIL = 1.2;

export class Assembly {
  private readonly plan: Plan;
  private readonly nets: Nets;
  /** by net: GROUNDED, RAILED − r, or 0 */
  private readonly stiff: Int32Array;
  private readonly parent: Int32Array;
  /** by net: its node in its block, or −1 while it has none */
  private readonly node: Int32Array;
  /** by net that stands for a block */
  private readonly draftAt: (BlockDraft | undefined)[] = [];
  private readonly legNets: readonly Int32Array[];
  readonly blocks: BlockDraft[] = [];
  readonly rails: RailDraft[] = [];
  readonly chips: BenchChip[] = [];

  constructor(
    layout: Layout,
    private readonly parts: readonly PartElements[],
  ) {
    this.plan = layout.plan;
    this.nets = findNets(layout);
    const count = this.nets.all.length;
    this.stiff = new Int32Array(count);
    this.parent = Int32Array.from({ length: count }, (_, net) => net);
    this.node = new Int32Array(count).fill(-1);
    this.legNets = parts.map(({ placed }) => Int32Array.from(placed.legs, (leg) => this.netOf(leg.strip)));
  }

  /** Fills `blocks`, `rails` and `chips`; false where the bench is more than blocks that each lean on one rail that is on. */
  find(): boolean {
    if (this.plan.wiring === 'real' || !this.parts.every((p) => p.isPlain) || !this.findRails()) return false;
    this.join();
    return this.parts.every((part, i) => this.describe(part, this.legNets[i] as Int32Array)) && this.putLoads() && this.placeChips();
  }

  /** What is at this strip; undefined where nothing is, or nothing but wires. */
  at(strip: string): MetalPlace | undefined {
    const net = this.netOf(strip);
    if (net < 0) return undefined;
    const on = this.stiff[net] as number;
    if (on !== 0) return { block: on, node: 0 };
    const draft = this.draftAt[this.root(net)];
    return draft && { block: draft.number, node: this.node[net] as number };
  }

  private netOf(strip: string): number {
    return this.nets.ofStrip.get(strip)?.index ?? -1;
  }

  /** Each supply is on, and between ground and a rail of its own. */
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
      if (minus !== ground || this.stiff[plus] !== 0 || this.plan.switches[id]?.[0] !== true) return false;
      this.stiff[plus] = RAILED - this.rails.length;
      this.rails.push({ supply: model, key: [], parts: [] });
    }
    return true;
  }

  private root(net: number): number {
    let r = net;
    while (this.parent[r] !== r) r = this.parent[r] as number;
    this.parent[net] = r;
    return r;
  }

  private join(): void {
    for (const [i, { elements }] of this.parts.entries()) {
      const nets = this.legNets[i] as Int32Array;
      for (let e = 0; e < elements.length; e++) {
        const { legs } = elements[e] as PartElements['elements'][number];
        let first = -1;
        for (let k = 0; k < legs.length; k++) {
          const net = nets[legs[k] as number] as number;
          if (this.stiff[net] !== 0) continue;
          const root = this.root(net);
          if (first < 0) first = root;
          else this.parent[root] = first;
        }
      }
    }
    for (const [a, b] of this.loads()) if (b >= 0 && this.stiff[a] === 0 && this.stiff[b] === 0) this.parent[this.root(b)] = this.root(a);
  }

  /** Nets that meters load; the second is −1 for ground. */
  private loads(): [number, number][] {
    const net = (point: string): number => this.netOf(stripAt(point, this.plan.boards));
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
    const root = this.root(net);
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
      if (!draft) return false;
      draft.key.push(CONTACT, ...legs.map((leg) => this.nameOf(nets[leg] as number, draft)));
      draft.contacts.push({ part: id, pole });
    }
    for (const led of part.leds) {
      const draft = firstDraft(led.legs);
      if (!draft) return false;
      draft.leds.push(led.id);
    }
    return part.chips.every((chip) => this.describePins(part, chip, nets));
  }

  private describePins(part: PartElements, chip: PartChip, nets: Int32Array): boolean {
    const number = this.chips.length;
    for (const [output, { node }] of chip.site.outputs.entries()) {
      const net = nets[node] as number;
      const draft = this.draftOf(net, part);
      if (!draft) return false;
      draft.key.push(OUTPUT, chip.outputs[output] as number, this.nameOf(net, draft));
      draft.outputs.push({ chip: number, output });
    }
    for (const [input, { node }] of chip.site.inputs.entries()) {
      const net = nets[node] as number;
      const draft = this.draftOf(net, part);
      if (!draft) continue;
      draft.key.push(INPUT, chip.inputs[input] as number, this.nameOf(net, draft));
      draft.inputs.push({ chip: number, input });
    }
    this.chips.push({ part: part.placed.part.id, chip, rail: 0, inputs: [] });
    return true;
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

  /** Each chip is between a rail and ground, and its thresholds are parts of that rail. */
  private placeChips(): boolean {
    const highest = Math.max(...this.rails.map((r) => r.supply.volts));
    let k = 0;
    for (const [i, part] of this.parts.entries())
      for (const { site } of part.chips) {
        const at = (leg: number): MetalPlace => {
          const net = this.legNets[i]?.[leg] as number;
          const on = this.stiff[net] as number;
          return on === 0
            ? { block: (this.draftAt[this.root(net)] as BlockDraft).number, node: this.node[net] as number }
            : { block: on, node: 0 };
        };
        const { block } = at(site.supply.node);
        if (block > RAILED || at(site.ground.node).block !== GROUNDED) return false;
        if (site.inputs.some(({ of }) => of !== undefined && at(of).block !== block)) return false;
        if (site.marks.some((_, m) => (site.spec.marks?.[m]?.volts ?? 0) <= ABOVE_RAIL * highest)) return false;
        this.chips[k] = { ...(this.chips[k] as BenchChip), rail: RAILED - block, inputs: site.inputs.map((pin) => at(pin.node)) };
        k += 1;
      }
    return true;
  }

  /** The node of a leg in this block's own circuit: ground, a node of the block, its rail after them, or the rest of the bench after that. */
  nodeIn(draft: BlockDraft, leg: Leg): number {
    const place = this.at(leg.strip);
    if (place?.block === GROUNDED) return -1;
    if (place?.block === draft.number) return place.node;
    return place?.block === RAILED - Math.max(0, draft.rail) ? draft.nodes : draft.nodes + 1;
  }
}
