/**
 * In which state each block of a bench is, and what follows from that: the levels that chips read, the looks of LEDs, the voltages of the rails.
 * States are known once the event engine has shown them; a block that goes from one to another changes sums and nothing else.
 */
import type { Network, Node } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import { BlockClass, weightsOf } from './block-class.ts';
import { type BlockCurve, BlockReader } from './block-reader.ts';
import type { Blocks } from './blocks.ts';
import { TERMS, valueAt } from './polynomial.ts';
import { exact, SupplyRail } from './supply-rail.ts';

/** A state of a class that the event engine has shown. */
interface Known {
  readonly kind: number;
  readonly state: number;
  /** of its inputs; an input that floats is X. States of a class that read alike share one list. */
  readonly levels: readonly Level[];
  readonly floats: readonly boolean[];
  /** by range of its rail; null: it can't be had there */
  readonly curves: Map<string, BlockCurve | null>;
  /** in the present range */
  curve: BlockCurve | undefined;
}

/** More moves of a rail than this have no end. */
const MOST_MOVES = 100;

/** What is asked of a known state whenever a block enters or leaves it, side by side. */
class Ledger {
  /** 0: no curve in the present range; 1: it has one; 2: levels or looks have to be looked at in each row, too */
  standing = new Uint8Array(0);
  /** TERMS of what it takes [A] */
  taken = new Float64Array(0);
  /** which list of levels it reads */
  list = new Int32Array(0);

  growTo(length: number): void {
    if (length <= this.standing.length) return;
    const { standing, taken, list } = this;
    this.standing = new Uint8Array(2 * length);
    this.taken = new Float64Array(2 * length * TERMS);
    this.list = new Int32Array(2 * length);
    this.standing.set(standing);
    this.taken.set(taken);
    this.list.set(list);
  }
}

export class BlockStates {
  readonly blocks: Blocks;
  readonly rails: readonly SupplyRail[];
  /** by block */
  readonly state: Int32Array;
  private readonly place: Int32Array;
  private readonly railOf: readonly SupplyRail[];
  private readonly classes: readonly BlockClass[];
  private readonly readers: readonly BlockReader[];
  /** by block and class: where the places of its states begin; a state's place in `known`, or −1 */
  private readonly first: Int32Array;
  private readonly places: Int32Array;
  private readonly known: Known[] = [];
  private readonly lists: (readonly Level[])[] = [];
  private readonly ledger = new Ledger();
  /** blocks that are in no known state, and blocks whose state has to be looked at in each row */
  private strangers: number;
  private wavering = 0;
  /** false: some block's state has no curve in the present range, or looks were written by somebody else */
  private summed = false;
  /** by chip, then by input; and by chip, 1: one that moves it has changed */
  private readonly levels: readonly Level[][];
  readonly stale: Uint8Array;
  /** places in BRIGHTNESSES of all LEDs */
  private readonly looks: Uint8Array;
  private readonly marks: ReadonlyMap<Node, readonly number[]>;
  private readonly sides = new Map<Node, number>();

  /** marks: by rail, the voltages at whose crossing something else than a block changes. levels, looks: kept up to date. */
  constructor(
    network: Network,
    blocks: Blocks,
    rails: readonly Node[],
    marks: ReadonlyMap<Node, readonly number[]>,
    levels: readonly Level[][],
    looks: Uint8Array,
  ) {
    this.blocks = blocks;
    this.rails = rails.map((node) => new SupplyRail(network, node));
    this.marks = marks;
    this.levels = levels;
    this.looks = looks;
    this.stale = new Uint8Array(levels.length);
    const samples = blocks.samples.flatMap((block) => blocks.parts[block] ?? []);
    this.classes = samples.map((parts) => new BlockClass(network, parts));
    this.readers = samples.map((parts) => new BlockReader(network, parts));
    const begins = [0];
    for (const parts of samples) begins.push((begins.at(-1) as number) + (weightsOf(parts).at(-1) as number));
    this.places = new Int32Array(begins.at(-1) as number).fill(-1);
    this.first = Int32Array.from(blocks.classOf, (kind) => begins[kind] as number);
    this.state = new Int32Array(blocks.parts.length);
    this.place = new Int32Array(blocks.parts.length).fill(-1);
    this.railOf = blocks.parts.map((parts) => this.rails.find((r) => r.node === parts.rail) as SupplyRail);
    this.strangers = this.place.length;
  }

  /** Where the rails are now [V]; false if one of them cannot be had as polynomials. */
  begin(x: Float64Array): boolean {
    for (const { node } of this.rails) this.sides.set(node, this.above(node, x[node] as number));
    return this.rails.every((rail) => rail.goTo(x[rail.node] as number));
  }

  isKnown(block: number, state: number): boolean {
    return this.places[(this.first[block] as number) + state] !== -1;
  }

  /** levels: as this block's inputs read in this state. countsHigh: open inputs that count as high. */
  meet(block: number, state: number, levels: readonly Level[], countsHigh: readonly boolean[]): void {
    const kind = this.blocks.classOf[block] as number;
    const place = this.known.length;
    this.places[(this.first[block] as number) + state] = place;
    const alike = this.known.find((k) => k.kind === kind && k.levels.join() === levels.join());
    const known: Known = { kind, state, levels: alike?.levels ?? levels, floats: [], curves: new Map(), curve: undefined };
    const here = this.curveOf(known, this.railOf[block] as SupplyRail);
    const floats = levels.map((level, i) => level !== here?.levels[i] && (level === 'X' || countsHigh[i] === true));
    this.known.push({ ...known, floats });
    this.ledger.growTo(place + 1);
    this.ledger.list[place] = alike ? this.lists.indexOf(alike.levels) : this.lists.push(levels) - 1;
  }

  /** One block is in another state. */
  enter(block: number, state: number): void {
    const before = this.place[block] as number;
    const after = this.places[(this.first[block] as number) + state] as number;
    this.state[block] = state;
    if (before === after) return;
    this.place[block] = after;
    const { ledger } = this;
    if (before < 0 || after < 0) {
      this.strangers += (after < 0 ? 1 : 0) - (before < 0 ? 1 : 0);
      this.summed = false;
      this.tell(block, this.known[after]?.levels);
      return;
    }
    if (ledger.list[before] !== ledger.list[after]) this.tell(block, this.lists[ledger.list[after] as number]);
    if (!this.summed) return;
    if (ledger.standing[after] === 0) {
      this.summed = false;
      return;
    }
    const { taken } = this.railOf[block] as SupplyRail;
    const to = after * TERMS;
    const from = before * TERMS;
    for (let d = 0; d < TERMS; d++)
      taken[d] = (taken[d] as number) + ((ledger.taken[to + d] as number) - (ledger.taken[from + d] as number));
    this.wavering += (ledger.standing[after] as number) - (ledger.standing[before] as number);
    const leds = this.blocks.leds[block] as Int32Array;
    const { curve } = this.known[after] as Known;
    if (curve) this.show(leds, curve.looks);
  }

  /** Somebody else has written the looks. */
  forget(): void {
    this.summed = false;
  }

  /** Finds the rails' voltages and shows the LEDs; false where some block is not known well enough for that, or some input reads otherwise there. */
  settle(): boolean {
    if (this.strangers > 0) return false;
    for (let moves = 0; moves < MOST_MOVES; moves++) {
      if (!this.summed && !this.sum()) return false;
      for (let r = 0; r < this.rails.length; r++) {
        const rail = this.rails[r] as SupplyRail;
        if (rail.settle()) continue;
        this.summed = false;
        if (!rail.goTo(rail.volts)) return false;
      }
      if (this.summed) return this.holds();
    }
    return false;
  }

  /** Voltages of this block's nodes, into their places [V]. */
  voltages(block: number, into: Float64Array): void {
    const { nodes } = this.blocks.parts[block] as Blocks['parts'][number];
    const terms = this.known[this.place[block] as number]?.curve?.terms;
    if (!terms) return;
    const { t } = this.railOf[block] as SupplyRail;
    for (let i = 0; i < nodes.length; i++) into[nodes[i] as number] = valueAt(terms, i * TERMS, t);
  }

  /** As the block's inputs read in its state. */
  levelsOf(block: number): readonly Level[] | undefined {
    return this.known[this.place[block] as number]?.levels;
  }

  /** Some input of this block floats, so that its voltage is what leakage makes of it. */
  floats(block: number): boolean {
    const known = this.known[this.place[block] as number];
    return !known || known.levels.includes('X') || known.floats.includes(true);
  }

  /** Tells the chips that follow this block what they read; undefined: nobody knows. */
  private tell(block: number, levels: readonly Level[] | undefined): void {
    const { chips, inputs, places } = this.blocks.followers[block] as Blocks['followers'][number];
    for (let i = 0; i < chips.length; i++) {
      const chip = chips[i] as number;
      const seen = this.levels[chip] as Level[];
      const level = levels ? (levels[places[i] as number] as Level) : 'X';
      if (seen[inputs[i] as number] === level) continue;
      seen[inputs[i] as number] = level;
      this.stale[chip] = 1;
    }
  }

  private show(leds: Int32Array, looks: Uint8Array): void {
    for (let i = 0; i < leds.length; i++) this.looks[leds[i] as number] = looks[i] as number;
  }

  /** Adds up what all blocks take in the present ranges; false where one has no curve, not even in a narrower one. */
  private sum(): boolean {
    const { ledger } = this;
    for (const known of this.known) known.curve = undefined;
    ledger.standing.fill(0);
    this.wavering = -this.place.length;
    for (const { taken } of this.rails) taken.fill(0);
    for (let block = 0; block < this.place.length; block++) {
      const place = this.place[block] as number;
      const known = this.known[place] as Known;
      const rail = this.railOf[block] as SupplyRail;
      if (!known.curve && !this.take(known, place, rail)) return rail.narrow() && this.sum();
      for (let d = 0; d < TERMS; d++) rail.taken[d] = (rail.taken[d] as number) + (ledger.taken[place * TERMS + d] as number);
      this.wavering += ledger.standing[place] as number;
      this.show(this.blocks.leds[block] as Int32Array, (known.curve as unknown as BlockCurve).looks);
    }
    this.summed = true;
    return true;
  }

  /** Takes this state's curve in the present range. */
  private take(known: Known, place: number, rail: SupplyRail): boolean {
    const curve = this.curveOf(known, rail);
    if (!curve) return false;
    known.curve = curve;
    const at = curve.terms.length - TERMS;
    for (let d = 0; d < TERMS; d++) this.ledger.taken[place * TERMS + d] = exact(curve.terms[at + d] as number);
    this.ledger.standing[place] = curve.steady && reads(known, curve.levels) ? 1 : 2;
    return true;
  }

  private curveOf({ curves, kind, state }: Known, { range }: SupplyRail): BlockCurve | undefined {
    const key = `${range.middle} ${range.half}`;
    let curve = curves.get(key);
    if (curve === undefined) {
      const terms = (this.classes[kind] as BlockClass).curve(state, range);
      curve = terms ? (this.readers[kind] as BlockReader).over(terms, range) : null;
      curves.set(key, curve);
    }
    return curve ?? undefined;
  }

  /** Do all inputs read at these voltages what they were seen to? Shows the LEDs that do not look alike in all of a range. */
  private holds(): boolean {
    for (const { node, volts } of this.rails) if (this.above(node, volts) !== this.sides.get(node)) return false;
    if (this.wavering === 0) return true;
    for (let block = 0; block < this.place.length; block++) {
      const place = this.place[block] as number;
      if (this.ledger.standing[place] === 1) continue;
      const known = this.known[place] as Known;
      const { terms } = known.curve as BlockCurve;
      const { t, volts } = this.railOf[block] as SupplyRail;
      const reader = this.readers[known.kind] as BlockReader;
      if (!reads(known, reader.levels(terms, t, volts))) return false;
      this.show(this.blocks.leds[block] as Int32Array, reader.looks(terms, t, volts));
    }
    return true;
  }

  /** Marks of this rail below this voltage. */
  private above(rail: Node, volts: number): number {
    const marks = this.marks.get(rail);
    let count = 0;
    for (let m = 0; marks && m < marks.length; m++) if (volts > (marks[m] as number)) count += 1;
    return count;
  }
}

/** Are these the levels that it was seen to have? */
const reads = ({ levels, floats }: Known, here: readonly Level[]): boolean => here.every((level, i) => floats[i] || level === levels[i]);
