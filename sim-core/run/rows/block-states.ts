/** In which state each block of a bench is, and what follows from that: the levels that chips read, the looks of LEDs. */
import type { Network } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import { BlockRests } from './block-rests.ts';
import type { Blocks, Followers } from './blocks.ts';
import { KnownStates, UNSEEN } from './known-states.ts';
import type { SupplyRail } from './supply-rail.ts';

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
  private readonly rests: BlockRests;
  private readonly known: KnownStates;
  /** by block */
  readonly state: Int32Array;
  /** blocks that are in no state that was seen, and blocks whose state wavers */
  private strangers: number;
  private wavering = 0;
  /** in which range the looks are those of the states; −1: they have to be shown all */
  private shown = -1;
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
    this.levels = levels;
    this.looks = looks;
    this.stale = new Uint8Array(levels.length);
    this.isFollowed = Uint8Array.from(blocks.followers, ({ chips }) => Math.min(chips.length, 1));
    this.rests = new BlockRests(network, blocks, rails);
    this.known = new KnownStates(network, this.rests, blocks);
    this.state = new Int32Array(blocks.parts.length);
    this.strangers = this.state.length;
    this.led = Int32Array.from(blocks.leds, (leds) => (leds.length > 1 ? SEVERAL : (leds[0] ?? NONE)));
  }

  /** False if some rail cannot be had as a polynomial where it is. */
  begin(): boolean {
    return this.rests.rails.every((rail) => rail.goTo(rail.volts));
  }

  /** Has this state of the block's class been seen? If not it is now. levels: as this block's inputs read. countsHigh: open inputs that count as high. */
  meet(block: number, state: number, levels: readonly Level[], countsHigh: readonly boolean[]): void {
    const place = this.rests.placeOf(block, state);
    this.known.reach(place);
    if (this.known.list[place] !== UNSEEN) return;
    this.known.add(block, place, levels, countsHigh);
    for (let other = 0; other < this.rests.place.length; other++) {
      if (this.rests.place[other] !== place) continue;
      this.strangers -= 1;
      this.tell(other, levels);
    }
    this.shown = -1;
  }

  /** One block is in another state. */
  enter(block: number, state: number): void {
    const { rests, known, shown } = this;
    const before = rests.place[block] as number;
    const after = rests.enter(block, state);
    this.state[block] = state;
    if (before === after) return;
    if (shown < 0 || known.range[before] !== shown || known.range[after] !== shown) {
      this.enterUnseen(block, before, after);
      return;
    }
    if (this.isFollowed[block] === 1 && known.list[before] !== known.list[after]) this.tell(block, known.levels(after));
    if (known.haveWavered) this.wavering += (known.wavers[after] as number) - (known.wavers[before] as number);
    const led = this.led[block] as number;
    if (led >= 0) this.looks[led] = known.look[after] as number;
    else if (led === SEVERAL) this.show(block, known.looks(after));
  }

  /** The states at these places have not both been looked at in the present range: all blocks are looked at when they settle. */
  private enterUnseen(block: number, before: number, after: number): void {
    const { known } = this;
    known.reach(after);
    const read = before < 0 ? UNSEEN : (known.list[before] as number);
    const reads = known.list[after] as number;
    this.strangers += (reads === UNSEEN ? 1 : 0) - (read === UNSEEN ? 1 : 0);
    this.shown = -1;
    if (read === UNSEEN || read !== reads) this.tell(block, known.levels(after));
  }

  /** Somebody else has written the looks. */
  forget(): void {
    this.shown = -1;
  }

  /** Finds the rails' voltages and shows the LEDs; false where some block is not known well enough for that, or some input reads otherwise there. */
  settle(): boolean {
    if (this.strangers > 0 || !this.rests.settle()) return false;
    if (this.shown !== this.rests.ranges) this.showAll();
    return this.holds();
  }

  /** Voltages of the rails and of all nodes that are solved for, into their places [V]. */
  voltages(into: Float64Array): void {
    this.rests.voltages(into);
  }

  /** As the block's inputs read in its state. */
  levelsOf(block: number): readonly Level[] | undefined {
    return this.known.levels(this.rests.place[block] as number);
  }

  /** Some input of this block floats, so that its voltage is what leakage makes of it. */
  floats(block: number): boolean {
    return this.known.floats(this.rests.place[block] as number);
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

  /** Every block's LEDs as its state looks in the present range. */
  private showAll(): void {
    const { known, rests } = this;
    this.wavering = 0;
    for (const [block, place] of rests.place.entries()) {
      known.lookAt(place);
      this.wavering += known.wavers[place] as number;
      this.show(block, known.looks(place));
    }
    this.shown = rests.ranges;
  }

  /** Do all inputs read at these voltages what they were seen to? Shows the LEDs that do not look alike in all of a range. */
  private holds(): boolean {
    const { known, rests } = this;
    for (let r = 0; r < rests.rails.length; r++) if (!(rests.rails[r] as SupplyRail).holds()) return false;
    if (this.wavering === 0) return true;
    for (let block = 0; block < rests.place.length; block++) {
      const place = rests.place[block] as number;
      if (known.wavers[place] === 0) continue;
      const looks = known.looksNow(place);
      if (!looks) return false;
      this.show(block, looks);
    }
    return true;
  }
}
