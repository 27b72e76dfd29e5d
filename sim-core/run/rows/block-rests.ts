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
  readonly rail: SupplyRail;
  /** by range of its rail, see BlockClass.curve; null: it can't be had there */
  readonly curves: Map<string, Float64Array | null>;
  /** in the present range, if it has been asked for */
  terms: Float64Array | undefined;
  /** of its nodes [V], and when they were found */
  readonly volts: Float64Array;
  turn: number;
}

export class BlockRests {
  readonly rails: readonly SupplyRail[];
  private readonly blocks: Blocks;
  private readonly classes: readonly BlockClass[];
  /** by block: the place of the state that it is in, or −1 */
  readonly place: Int32Array;
  /** by block: where the places of its class's states begin; the place of a state, or −1 */
  private readonly first: Int32Array;
  private readonly places: Int32Array;
  private readonly all: Rest[] = [];
  // by place, as numbers side by side
  /** 1: it has a curve in the present range; TERMS of what it takes there [A] */
  private has = new Uint8Array(0);
  private taken = new Float64Array(0);
  /** by how many more blocks are in it than when sums were last made; and which have been touched since */
  private more = new Int32Array(0);
  private isTouched = new Uint8Array(0);
  private touched = new Int32Array(0);
  private touchedCount = 0;
  /** counts the ranges that rails have gone to */
  ranges = 0;
  /** false: some block's state has no curve in the present range */
  private summed = false;
  private turn = 0;
  /** a curve has been made since this was last cleared */
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
    this.place = new Int32Array(blocks.parts.length).fill(-1);
  }

  /** A state of this block's class, as equal blocks share it: a number from 0 on, the same every time. */
  placeOf(block: number, state: number): number {
    const key = (this.first[block] as number) + state;
    const known = this.places[key] as number;
    if (known >= 0) return known;
    const kind = this.blocks.classOf[block] as number;
    const { rail, nodes } = (this.classes[kind] as BlockClass).parts;
    const place = this.all.push({
      kind,
      state,
      rail: this.rails.find((r) => r.node === rail) as SupplyRail,
      curves: new Map(),
      terms: undefined,
      volts: new Float64Array(nodes.length),
      turn: 0,
    });
    this.places[key] = place - 1;
    this.reach(place - 1);
    return place - 1;
  }

  /** One block is in another state, whose place is returned. Every block has to be put into one before anything is settled. */
  enter(block: number, state: number): number {
    const before = this.place[block] as number;
    const known = this.places[(this.first[block] as number) + state] as number;
    const after = known < 0 ? this.placeOf(block, state) : known;
    if (before === after) return after;
    this.place[block] = after;
    if (!this.summed) return after;
    if (before < 0 || this.has[after] === 0) this.summed = false;
    else {
      this.count(before, -1);
      this.count(after, 1);
    }
    return after;
  }

  /** Finds the voltages of the rails; false where some block is not to be had as polynomials. */
  settle(): boolean {
    for (let moves = 0; moves < MOST_MOVES; moves++) {
      this.addUp();
      if (!this.summed && !this.sum()) return false;
      for (let r = 0; r < this.rails.length; r++) {
        const rail = this.rails[r] as SupplyRail;
        if (rail.settle()) continue;
        this.leaveRange();
        if (!rail.goTo(rail.volts)) return false;
      }
      if (this.summed) return true;
    }
    return false;
  }

  /** Voltages of the rails and of all nodes of blocks that are solved for, into their places [V]. */
  voltages(into: Float64Array): void {
    const { place, all, blocks, rails } = this;
    this.turn += 1;
    for (let r = 0; r < rails.length; r++) into[(rails[r] as SupplyRail).node] = (rails[r] as SupplyRail).volts;
    for (let block = 0; block < place.length; block++) {
      const rest = all[place[block] as number] as Rest;
      if (rest.turn !== this.turn) this.evaluate(rest);
      const { volts } = rest;
      const { nodes } = blocks.parts[block] as Blocks['parts'][number];
      for (let i = 0; i < nodes.length; i++) into[nodes[i] as Node] = volts[i] as number;
    }
  }

  /** The state at this place in the present range of its rail, see BlockClass.curve; undefined if it can't be had there. */
  curve(place: number): Float64Array | undefined {
    return (this.all[place] as Rest).terms ?? this.take(place);
  }

  /** The rail that the state at this place is on. */
  railAt(place: number): SupplyRail {
    return (this.all[place] as Rest).rail;
  }

  private evaluate(rest: Rest): void {
    const { volts, terms, rail } = rest;
    rest.turn = this.turn;
    for (let i = 0; terms && i < volts.length; i++) volts[i] = valueAt(terms, i * TERMS, rail.t);
  }

  private count(place: number, by: number): void {
    this.more[place] = (this.more[place] as number) + by;
    // without a branch, as nobody foresees which states are gone to
    this.touched[this.touchedCount] = place;
    this.touchedCount += 1 - (this.isTouched[place] as number);
    this.isTouched[place] = 1;
  }

  /** Adds to what rails give what blocks take more in their new states than in their old ones. */
  private addUp(): void {
    const { more, touched, isTouched } = this;
    for (let i = 0; i < this.touchedCount; i++) {
      const place = touched[i] as number;
      const by = more[place] as number;
      isTouched[place] = 0;
      more[place] = 0;
      if (by !== 0) this.add(place, by);
    }
    this.touchedCount = 0;
  }

  private add(place: number, by: number): void {
    const { taken } = this;
    const sums = (this.all[place] as Rest).rail.taken;
    const from = place * TERMS;
    for (let d = 0; d < TERMS; d++) sums[d] = (sums[d] as number) + by * (taken[from + d] as number);
  }

  /** There is room for what is counted of the state at this place. */
  private reach(place: number): void {
    if (place + 1 < this.more.length) return;
    const length = 2 * (place + 8);
    const { has, taken, more, isTouched, touched } = this;
    this.has = new Uint8Array(length);
    this.taken = new Float64Array(length * TERMS);
    this.more = new Int32Array(length);
    this.isTouched = new Uint8Array(length);
    this.touched = new Int32Array(length);
    this.has.set(has);
    this.taken.set(taken);
    this.more.set(more);
    this.isTouched.set(isTouched);
    this.touched.set(touched);
  }

  /** Adds up what all blocks take in the present ranges; false where one has no curve, not even in a narrower one. */
  private sum(): boolean {
    for (const { taken } of this.rails) taken.fill(0);
    for (const place of this.place) {
      if (place < 0 || !this.curve(place)) {
        this.leaveRange();
        return place >= 0 && this.railAt(place).narrow() && this.sum();
      }
      this.add(place, 1);
    }
    this.summed = true;
    return true;
  }

  private leaveRange(): void {
    this.summed = false;
    this.ranges += 1;
    this.has.fill(0);
    for (const rest of this.all) rest.terms = undefined;
  }

  /** Takes a state's curve in the present range, if it has one. */
  private take(place: number): Float64Array | undefined {
    const rest = this.all[place] as Rest;
    const { curves, kind, state, rail } = rest;
    const key = `${rail.range.middle} ${rail.range.half}`;
    let terms = curves.get(key);
    if (terms === undefined) {
      terms = (this.classes[kind] as BlockClass).curve(state, rail.range) ?? null;
      curves.set(key, terms);
      this.fresh = true;
    }
    if (!terms) return undefined;
    rest.terms = terms;
    this.has[place] = 1;
    for (let d = 0; d < TERMS; d++) this.taken[place * TERMS + d] = exact(terms[terms.length - TERMS + d] as number);
    return terms;
  }
}
