/** A bench as blocks between its rails and ground, without a circuit of its own: blocks and rails that it has in common with other benches are made once for all. */
import { done, type Outcome } from '../../../shared/outcome.ts';
import type { Plan } from '../../../shared/plan.ts';
import { type Layout, type Leg, layOut } from '../../board/layout.ts';
import { GROUND, type Network, type Node } from '../../devices/network.ts';
import { shapeOf } from '../../parts/footprint-index.ts';
import { connectPart } from '../circuit/circuit.ts';
import type { PartOverrides } from '../circuit/part-overrides.ts';
import { makeSiteBuilder } from '../circuit/site-builder.ts';
import { Assembly, type BenchChip, type BlockDraft, GROUNDED, type MetalPlace, RAILED, type RailDraft } from './assembly.ts';
import { BlockModel } from './block-model.ts';
import { KeyedOnce } from './keyed-once.ts';
import { ElementsOfParts, type PartElements, Texts } from './part-elements.ts';
import { RailModel } from './rail-model.ts';

/** A block of this bench, and what of the bench is in it, in the order of its model. */
export type BenchBlock = Pick<BlockDraft, 'contacts' | 'outputs' | 'inputs' | 'leds' | 'rail'> & { readonly model: BlockModel };

/** A rail of this bench, and what of the bench is between it and ground, in the order of its model. */
export type BenchRail = Pick<RailDraft, 'contacts' | 'outputs'> & { readonly model: RailModel };

export interface BenchBlocks {
  readonly blocks: readonly BenchBlock[];
  readonly rails: readonly BenchRail[];
  readonly chips: readonly BenchChip[];
  /** the supplies' parts */
  readonly supplies: ReadonlySet<string>;
  /** what is at this strip; where a wire alone is as good as ground; undefined where nothing is */
  at(strip: string): MetalPlace | undefined;
}

/** A bench whose plan was laid out. */
export interface LaidBench {
  readonly parts: readonly PartElements[];
  /** undefined where it is more than blocks that each lean on one rail */
  blocks(): BenchBlocks | undefined;
}

/** All of a plan that decides on the blocks of its bench, beside its parts. */
type Metal = Pick<Plan, 'boards' | 'wires' | 'meters' | 'wiring'> & {
  readonly supplies: readonly (readonly [string, boolean])[];
  readonly bench: LaidBench;
};

/** What variants of one bench share: parts, and rails and blocks by what makes them. */
export class Workshop {
  private readonly texts = new Texts();
  private readonly elements: ElementsOfParts;
  private readonly blocks = new KeyedOnce<BlockModel>();
  private readonly rails = new KeyedOnce<RailModel>();
  /** by name */
  private readonly strips = new Texts();
  /** by the list of a plan's parts, the last plan that had it */
  private readonly laid = new WeakMap<Plan['parts'], Metal>();

  constructor(
    private readonly drive: 'typical' | 'guaranteed',
    private readonly specimens: PartOverrides | undefined,
  ) {
    this.elements = new ElementsOfParts(drive, specimens, this.texts, this.strips);
  }

  /** Plans that differ by bytes, switches and names are one bench, and laid out once. Fails with `plan/…`. */
  layOut(plan: Plan): Outcome<LaidBench> {
    const { boards, wires, meters, wiring } = plan;
    const known = this.laid.get(plan.parts);
    const on = Object.entries(plan.switches).flatMap(([id, [first]]) => (first ? [id] : []));
    if (
      known?.boards === boards &&
      known.wires === wires &&
      known.meters === meters &&
      known.wiring === wiring &&
      known.supplies.every(([id, isOn]) => on.includes(id) === isOn)
    )
      return done(known.bench);
    const layout = layOut(plan, shapeOf);
    if (!layout.ok) return layout;
    const parts = this.partsOf(layout.value);
    let found: { readonly blocks: BenchBlocks | undefined } | undefined;
    const blocks = () => {
      found ??= { blocks: this.blocksOf(layout.value, parts) };
      return found.blocks;
    };
    const supplies = parts.flatMap((p) => (p.supplies.length > 0 ? [[p.placed.part.id, on.includes(p.placed.part.id)] as const] : []));
    this.laid.set(plan.parts, { boards, wires, meters, wiring, supplies, bench: { parts, blocks } });
    return done({ parts, blocks });
  }

  /** The parts of a plan that was laid out, in its order. */
  private partsOf({ plan, legs }: Layout): PartElements[] {
    let next = 0;
    return plan.parts.map((part) => {
      const from = next;
      while (legs[next]?.part === part) next += 1;
      return this.elements.of(part, legs, from, next);
    });
  }

  /** Undefined where the bench is more than blocks that each lean on one rail. */
  private blocksOf(layout: Layout, parts: readonly PartElements[]): BenchBlocks | undefined {
    const assembly = new Assembly(layout, parts, this.strips);
    if (!assembly.find()) return undefined;
    const { rails, chips } = assembly;
    const supplies = rails.map(({ supply, isOn }) => this.texts.of(`${isOn} ${JSON.stringify(supply)}`));
    return {
      blocks: assembly.blocks.map((draft) => {
        const { contacts, outputs, inputs, leds } = draft;
        const rail = Math.max(0, draft.rail);
        return { model: this.modelOf(assembly, draft, supplies[rail] as number), rail, contacts, outputs, inputs, leds };
      }),
      rails: rails.map((rail, r) => this.railOf(assembly, rail, r, supplies[r] as number)),
      chips,
      supplies: new Set(parts.flatMap((p) => (p.supplies.length > 0 ? [p.placed.part.id] : []))),
      at: (strip) => assembly.at(strip),
    };
  }

  /** by: the number of what feeds its rail. */
  private modelOf(assembly: Assembly, draft: BlockDraft, by: number): BlockModel {
    return this.blocks.of(draft.key, by, () => {
      const { nodes, parts } = draft;
      const { supply } = assembly.rails[Math.max(0, draft.rail)] as RailDraft;
      const inside = (node: number): Node => (node === GROUNDED ? GROUND : node);
      return new BlockModel({
        nodes,
        supply,
        loads: draft.loads.map(([a, b]) => [inside(a), inside(b)]),
        connect: (network) => this.connect(parts, network, (leg) => assembly.nodeIn(draft, leg)),
      });
    });
  }

  private railOf(assembly: Assembly, { supply, isOn, key, parts, contacts, outputs }: RailDraft, r: number, by: number): BenchRail {
    const nodeOf = ({ strip }: Leg): Node => {
      const block = assembly.at(strip)?.block;
      return block === GROUNDED ? GROUND : block === RAILED - r ? 0 : 1;
    };
    const model = this.rails.of(key, by, () => new RailModel(supply, isOn, (network) => this.connect(parts, network, nodeOf)));
    return { model, contacts, outputs };
  }

  private connect(parts: readonly PartElements[], network: Network, nodeOf: (leg: Leg) => Node) {
    const builder = makeSiteBuilder(network, this.drive, nodeOf, this.specimens !== undefined);
    for (const { placed } of parts) connectPart(builder.wiringFor(placed), placed, this.specimens);
    return builder.sites;
  }
}
