/**
 * In which state each block of a bench is, and what follows from that: the levels that chips read, the looks of LEDs, the voltages of the rails.
 * A block that goes from one known state to another changes sums and nothing else.
 */
import type { Network, Node } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import { weightsOf } from './block-class.ts';
import type { Blocks, Followers } from './blocks.ts';
import { BARE, KnownStates, STEADY } from './known-states.ts';
import { TERMS, valueAt } from './polynomial.ts';
import type { SupplyRail } from './supply-rail.ts';

/** More moves of a rail than this have no end. */
const MOST_MOVES = 100;
/** Instead of the one LED of a block: it has none, or several. */
const NONE = -1;
const SEVERAL = -2;

/** The levels at all inputs of a chip. */
export interface LevelBits {
  value: number;
  unknown: number;
}

export class BlockStates {
  readonly blocks: Blocks;
  readonly rails: readonly SupplyRail[];
  private readonly known: KnownStates;
  /** by block; and its place among the known states, or −1 */
  readonly state: Int32Array;
  private readonly place: Int32Array;
  /** by block: where the places of its class's states begin; a state's place among the known ones, or −1 */
  private readonly first: Int32Array;
  private readonly places: Int32Array;
  /** by known state: by how much more blocks are in it than were when sums were last made; and which have been touched since */
  private more = new Int32Array(0);
  private touched = new Int32Array(0);
  private touchedCount = 0;
  private isTouched = new Uint8Array(0);
  /** blocks that are in no known state, and blocks whose state wavers */
  private strangers: number;
  private wavering = 0;
  /** false: some block's state has no curve in the present range, or looks were written by somebody else */
  private summed = false;
  /** by chip: of its inputs, see Chip.settled; and 1 where one that moves it has changed */
  private readonly levels: readonly LevelBits[];
  readonly stale: Uint8Array;
  /** by block, 1: some chip follows it */
  private readonly isFollowed: Uint8Array;
  /** places in BRIGHTNESSES of all LEDs; and by block, its LED */
  private readonly looks: Uint8Array;
  private readonly led: Int32Array;

  /** levels, looks: kept up to date. */
  constructor(network: Network, blocks: Blocks, rails: readonly SupplyRail[], levels: readonly LevelBits[], looks: Uint8Array) {
    this.blocks = blocks;
    this.rails = rails;
    this.levels = levels;
    this.looks = looks;
    this.stale = new Uint8Array(levels.length);
    this.isFollowed = Uint8Array.from(blocks.followers, ({ chips }) => Math.min(chips.length, 1));
    const samples = blocks.samples.flatMap((block) => blocks.parts[block] ?? []);
    this.known = new KnownStates(network, rails, samples);
    const begins = [0];
    for (const parts of samples) begins.push((begins.at(-1) as number) + (weightsOf(parts).at(-1) as number));
    this.places = new Int32Array(begins.at(-1) as number).fill(-1);
    this.first = Int32Array.from(blocks.classOf, (kind) => begins[kind] as number);
    this.state = new Int32Array(blocks.parts.length);
    this.place = new Int32Array(blocks.parts.length).fill(-1);
    this.strangers = this.place.length;
    this.led = Int32Array.from(blocks.leds, (leds) => (leds.length > 1 ? SEVERAL : (leds[0] ?? NONE)));
  }

  /** False if some rail cannot be had as a polynomial where it is. */
  begin(): boolean {
    return this.rails.every((rail) => rail.goTo(rail.volts));
  }

  isKnown(block: number, state: number): boolean {
    return this.places[(this.first[block] as number) + state] !== -1;
  }

  /** levels: as this block's inputs read in this state. countsHigh: open inputs that count as high. */
  meet(block: number, state: number, levels: readonly Level[], countsHigh: readonly boolean[]): void {
    const place = this.known.add(this.blocks.classOf[block] as number, state, levels, countsHigh);
    this.places[(this.first[block] as number) + state] = place;
    this.summed = false;
    if (place < this.more.length) return;
    const length = 2 * (place + 8);
    this.more = new Int32Array(length);
    this.isTouched = new Uint8Array(length);
    this.touched = new Int32Array(length);
    this.touchedCount = 0;
  }

  /** One block is in another state. */
  enter(block: number, state: number): void {
    const before = this.place[block] as number;
    const after = this.places[(this.first[block] as number) + state] as number;
    this.state[block] = state;
    if (before === after) return;
    this.place[block] = after;
    if (before < 0 || after < 0) {
      this.strangers += (after < 0 ? 1 : 0) - (before < 0 ? 1 : 0);
      this.summed = false;
      this.tell(block, this.known.all[after]?.levels);
      return;
    }
    const { list, standing, look } = this.known;
    if (this.isFollowed[block] === 1 && list[before] !== list[after]) this.tell(block, this.known.all[after]?.levels);
    if (!this.summed) return;
    if (standing[after] === BARE) {
      this.summed = false;
      return;
    }
    this.count(before, -1);
    this.count(after, 1);
    const led = this.led[block] as number;
    if (led >= 0) this.looks[led] = look[after] as number;
    else if (led === SEVERAL) this.show(block, this.known.all[after]?.curve?.looks);
  }

  /** Somebody else has written the looks. */
  forget(): void {
    this.summed = false;
  }

  /** Finds the rails' voltages and shows the LEDs; false where some block is not known well enough for that, or some input reads otherwise there. */
  settle(): boolean {
    if (this.strangers > 0) return false;
    for (let moves = 0; moves < MOST_MOVES; moves++) {
      if (this.summed) this.addUp();
      else if (!this.sum()) return false;
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
    const known = this.known.all[this.place[block] as number];
    if (!known?.curve) return;
    const { terms } = known.curve;
    const { t } = this.rails[known.rail] as SupplyRail;
    for (let i = 0; i < nodes.length; i++) into[nodes[i] as Node] = valueAt(terms, i * TERMS, t);
  }

  /** As the block's inputs read in its state. */
  levelsOf(block: number): readonly Level[] | undefined {
    return this.known.all[this.place[block] as number]?.levels;
  }

  /** Some input of this block floats, so that its voltage is what leakage makes of it. */
  floats(block: number): boolean {
    const known = this.known.all[this.place[block] as number];
    return !known || known.levels.includes('X') || known.floats.includes(true);
  }

  private count(place: number, by: number): void {
    this.more[place] = (this.more[place] as number) + by;
    this.touched[this.touchedCount] = place;
    this.touchedCount += 1 - (this.isTouched[place] as number);
    this.isTouched[place] = 1;
  }

  /** Tells the chips that follow this block what they read; undefined: nobody knows. */
  private tell(block: number, levels: readonly Level[] | undefined): void {
    const { chips, inputs, places } = this.blocks.followers[block] as Followers;
    for (let i = 0; i < chips.length; i++) {
      const chip = chips[i] as number;
      const seen = this.levels[chip] as LevelBits;
      const level = levels ? (levels[places[i] as number] as Level) : 'X';
      const bit = 1 << (inputs[i] as number);
      seen.value = level === 'H' ? seen.value | bit : seen.value & ~bit;
      seen.unknown = level === 'X' ? seen.unknown | bit : seen.unknown & ~bit;
      this.stale[chip] = 1;
    }
  }

  private show(block: number, looks: Uint8Array | undefined): void {
    const leds = this.blocks.leds[block] as Int32Array;
    for (let i = 0; looks && i < leds.length; i++) this.looks[leds[i] as number] = looks[i] as number;
  }

  /** Adds to what rails give what blocks take more in their new states than in their old ones. */
  private addUp(): void {
    const { more, touched, isTouched } = this;
    for (let i = 0; i < this.touchedCount; i++) {
      const place = touched[i] as number;
      isTouched[place] = 0;
      const by = more[place] as number;
      more[place] = 0;
      if (by !== 0) this.add(place, by);
    }
    this.touchedCount = 0;
  }

  private add(place: number, by: number): void {
    const { all, taken, standing } = this.known;
    const sums = (this.rails[all[place]?.rail ?? 0] as SupplyRail).taken;
    const from = place * TERMS;
    for (let d = 0; d < TERMS; d++) sums[d] = (sums[d] as number) + by * (taken[from + d] as number);
    this.wavering += by * ((standing[place] as number) - STEADY);
  }

  /** Adds up what all blocks take in the present ranges; false where one has no curve, not even in a narrower one. */
  private sum(): boolean {
    const { known } = this;
    known.forget();
    this.addUp();
    this.wavering = 0;
    for (const { taken } of this.rails) taken.fill(0);
    for (let block = 0; block < this.place.length; block++) {
      const place = this.place[block] as number;
      if (known.standing[place] === BARE && !known.take(place)) {
        const rail = this.rails[known.all[place]?.rail ?? 0] as SupplyRail;
        return rail.narrow() && this.sum();
      }
      this.add(place, 1);
      this.show(block, known.all[place]?.curve?.looks);
    }
    this.summed = true;
    return true;
  }

  /** Do all inputs read at these voltages what they were seen to? Shows the LEDs that do not look alike in all of a range. */
  private holds(): boolean {
    for (let r = 0; r < this.rails.length; r++) if (!(this.rails[r] as SupplyRail).holds()) return false;
    if (this.wavering === 0) return true;
    for (let block = 0; block < this.place.length; block++) {
      const place = this.place[block] as number;
      if (this.known.standing[place] === STEADY) continue;
      const looks = this.known.looksNow(place);
      if (!looks) return false;
      this.show(block, looks);
    }
    return true;
  }
}
