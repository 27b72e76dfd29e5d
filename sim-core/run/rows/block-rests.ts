/**
 * Where the blocks of a bench rest, each in its state: equal blocks in equal states are solved once, over a range of their rail's voltage, and what all of them
 * take together gives that voltage. A block that goes from one state to another changes sums and nothing else.
 */
import type { Network, Node } from '../../devices/network.ts';
import { BlockClass, weightsOf } from './block-class.ts';
import type { Blocks } from './blocks.ts';
import { TERMS, valueAt } from './polynomial.ts';
import { exact, type SupplyRail } from './supply-rail.ts';

/** More moves of a rail than this have no end. */
const MOST_MOVES = 100;

/** One state of a class. */
interface Rest {
  readonly kind: number;
  readonly state: number;
  readonly rail: number;
  /** by range of its rail, see BlockClass.curve; null: it can't be had there */
  readonly curves: Map<string, Float64Array | null>;
  /** in the present range, if it has been asked for; and what it takes there [A] */
  terms: Float64Array | undefined;
  readonly taken: Float64Array;
  /** by how many more blocks are in it than when sums were last made */
  more: number;
  isTouched: boolean;
  /** of its nodes [V], and when they were found */
  readonly volts: Float64Array;
  turn: number;
}

export class BlockRests {
  private readonly blocks: Blocks;
  private readonly rails: readonly SupplyRail[];
  private readonly classes: readonly BlockClass[];
  /** by block */
  private readonly at: (Rest | undefined)[];
  /** by block: where the places of its class's states begin; a state's place in `all`, or −1 */
  private readonly first: Int32Array;
  private readonly places: Int32Array;
  private readonly all: Rest[] = [];
  private readonly touched: Rest[] = [];
  /** false: some block's state has no curve in the present range */
  private summed = false;
  private turn = 0;
  /** a curve has been taken since this was last cleared */
  fresh = false;

  constructor(network: Network, blocks: Blocks, rails: readonly SupplyRail[]) {
    this.blocks = blocks;
    this.rails = rails;
    const samples = blocks.samples.map((block) => blocks.parts[block] as Blocks['parts'][number]);
    this.classes = samples.map((parts) => new BlockClass(network, parts));
    const begins = [0];
    for (const parts of samples) begins.push((begins.at(-1) as number) + (weightsOf(parts).at(-1) as number));
    this.places = new Int32Array(begins.at(-1) as number).fill(-1);
    this.first = Int32Array.from(blocks.classOf, (kind) => begins[kind] as number);
    this.at = blocks.parts.map(() => undefined);
  }

  /** One block is in another state. Every block has to be put into one before anything is settled. */
  enter(block: number, state: number): void {
    const before = this.at[block];
    const after = this.restOf(block, state);
    if (before === after) return;
    this.at[block] = after;
    if (!this.summed) return;
    if (!before || !after.terms) this.summed = false;
    else {
      this.count(before, -1);
      this.count(after, 1);
    }
  }

  /** Finds the voltages of the rails; false where some block is not to be had as polynomials. */
  settle(): boolean {
    for (let moves = 0; moves < MOST_MOVES; moves++) {
      this.addUp();
      if (!this.summed && !this.sum()) return false;
      for (let r = 0; r < this.rails.length; r++) {
        const rail = this.rails[r] as SupplyRail;
        if (rail.settle()) continue;
        this.summed = false;
        for (const rest of this.all) rest.terms = undefined;
        if (!rail.goTo(rail.volts)) return false;
      }
      if (this.summed) return true;
    }
    return false;
  }

  /** Voltages of the rails and of all nodes of blocks that are solved for, into their places [V]. */
  voltages(into: Float64Array): void {
    const { at, blocks, rails } = this;
    this.turn += 1;
    for (let r = 0; r < rails.length; r++) into[(rails[r] as SupplyRail).node] = (rails[r] as SupplyRail).volts;
    for (let block = 0; block < at.length; block++) {
      const rest = at[block] as Rest;
      if (rest.turn !== this.turn) this.evaluate(rest);
      const { volts } = rest;
      const { nodes } = blocks.parts[block] as Blocks['parts'][number];
      for (let i = 0; i < nodes.length; i++) into[nodes[i] as Node] = volts[i] as number;
    }
  }

  private evaluate(rest: Rest): void {
    const { volts, terms } = rest;
    const { t } = this.rails[rest.rail] as SupplyRail;
    rest.turn = this.turn;
    for (let i = 0; terms && i < volts.length; i++) volts[i] = valueAt(terms, i * TERMS, t);
  }

  private restOf(block: number, state: number): Rest {
    const key = (this.first[block] as number) + state;
    const known = this.all[this.places[key] as number];
    if (known) return known;
    const kind = this.blocks.classOf[block] as number;
    const { rail, nodes } = (this.classes[kind] as BlockClass).parts;
    const made: Rest = {
      kind,
      state,
      rail: this.rails.findIndex((r) => r.node === rail),
      curves: new Map(),
      terms: undefined,
      taken: new Float64Array(TERMS),
      more: 0,
      isTouched: false,
      volts: new Float64Array(nodes.length),
      turn: 0,
    };
    this.places[key] = this.all.push(made) - 1;
    return made;
  }

  private count(rest: Rest, by: number): void {
    rest.more += by;
    if (rest.isTouched) return;
    rest.isTouched = true;
    this.touched.push(rest);
  }

  /** Adds to what rails give what blocks take more in their new states than in their old ones. */
  private addUp(): void {
    const { touched } = this;
    for (let i = 0; i < touched.length; i++) {
      const rest = touched[i] as Rest;
      if (rest.more !== 0) this.add(rest, rest.more);
      rest.isTouched = false;
      rest.more = 0;
    }
    touched.length = 0;
  }

  private add({ rail, taken }: Rest, by: number): void {
    const sums = (this.rails[rail] as SupplyRail).taken;
    for (let d = 0; d < TERMS; d++) sums[d] = (sums[d] as number) + by * (taken[d] as number);
  }

  /** Adds up what all blocks take in the present ranges; false where one has no curve, not even in a narrower one. */
  private sum(): boolean {
    for (const { taken } of this.rails) taken.fill(0);
    for (const rest of this.at) {
      if (!rest || !(rest.terms || this.take(rest))) {
        for (const other of this.all) other.terms = undefined;
        return rest !== undefined && (this.rails[rest.rail] as SupplyRail).narrow() && this.sum();
      }
      this.add(rest, 1);
    }
    this.summed = true;
    return true;
  }

  /** Takes a state's curve in the present range; false if it has none. */
  private take(rest: Rest): boolean {
    const { curves, kind, state, taken } = rest;
    const { range } = this.rails[rest.rail] as SupplyRail;
    const key = `${range.middle} ${range.half}`;
    let terms = curves.get(key);
    if (terms === undefined) {
      terms = (this.classes[kind] as BlockClass).curve(state, range) ?? null;
      curves.set(key, terms);
      this.fresh = true;
    }
    if (!terms) return false;
    rest.terms = terms;
    for (let d = 0; d < TERMS; d++) taken[d] = exact(terms[terms.length - TERMS + d] as number);
    return true;
  }
}
