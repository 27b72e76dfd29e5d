/** The states that blocks of a bench have been seen in: how they read, and how they look over the present range of their rail. */
import type { Network } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import { type BlockCurve, BlockReader } from './block-reader.ts';
import type { BlockRests } from './block-rests.ts';
import type { Blocks } from './blocks.ts';

/** A state of a class that the event engine has shown. */
interface Known {
  readonly reader: BlockReader;
  /** of its inputs; an input that floats is X, or H where an open one counts as high. States of a class that read alike share one list. */
  readonly levels: readonly Level[];
  readonly floats: readonly boolean[];
  /** by its curve */
  readonly curves: Map<Float64Array, BlockCurve>;
  /** in the present range */
  curve: BlockCurve | undefined;
}

/** The list of a state that has not been seen. */
export const UNSEEN = -1;

export class KnownStates {
  private readonly rests: BlockRests;
  private readonly readers: readonly BlockReader[];
  private readonly classOf: Int32Array;
  /** by place of a state, see BlockRests */
  private readonly all: (Known | undefined)[] = [];
  private readonly lists: (readonly Level[])[] = [];
  // by place, as numbers side by side
  /** which list of levels it reads, or UNSEEN */
  list = new Int32Array(0);
  /** in which range it was last looked at, as BlockRests counts them: the look of its first LED there, and 1 if levels or looks are not the same all over it */
  range = new Int32Array(0);
  look = new Uint8Array(0);
  wavers = new Uint8Array(0);
  /** some state has ever wavered */
  haveWavered = false;

  constructor(network: Network, rests: BlockRests, { samples, parts, classOf }: Blocks) {
    this.rests = rests;
    this.classOf = classOf;
    this.readers = samples.map((block) => new BlockReader(network, parts[block] as Blocks['parts'][number]));
  }

  /** The state at this place, that a block is in, is seen for the first time. levels: as its inputs read. countsHigh: open ones that count as high. */
  add(block: number, place: number, levels: readonly Level[], countsHigh: readonly boolean[]): void {
    const reader = this.readers[this.classOf[block] as number] as BlockReader;
    let list = this.lists.findIndex((other) => other.join() === levels.join());
    if (list < 0) list = this.lists.push(levels) - 1;
    const known: Known = { reader, levels: this.lists[list] ?? levels, floats: [], curves: new Map(), curve: undefined };
    const here = this.curveOf(place, known);
    const floats = levels.map((level, i) => level !== here?.levels[i] && (level === 'X' || countsHigh[i] === true));
    this.all[place] = { ...known, floats };
    this.list[place] = list;
  }

  /** There is room for what is known of the state at this place. */
  reach(place: number): void {
    if (place < this.list.length) return;
    const length = 2 * (place + 8);
    const { list, range, look, wavers } = this;
    this.list = new Int32Array(length).fill(UNSEEN);
    this.range = new Int32Array(length).fill(-1);
    this.look = new Uint8Array(length);
    this.wavers = new Uint8Array(length);
    this.list.set(list);
    this.range.set(range);
    this.look.set(look);
    this.wavers.set(wavers);
  }

  /** Looks at a state that was seen, in the present range; it has a curve there. */
  lookAt(place: number): void {
    if (this.range[place] === this.rests.ranges) return;
    const known = this.all[place] as Known;
    known.curve = this.curveOf(place, known);
    this.range[place] = this.rests.ranges;
    this.look[place] = known.curve?.looks[0] ?? 0;
    this.wavers[place] = known.curve?.steady && reads(known, known.curve.levels) ? 0 : 1;
    if (this.wavers[place] === 1) this.haveWavered = true;
  }

  /** Levels that the state at this place reads. */
  levels(place: number): readonly Level[] | undefined {
    return this.all[place]?.levels;
  }

  /** Some of its inputs float, so that their voltage is what leakage makes of it. */
  floats(place: number): boolean {
    const known = this.all[place];
    return !known || known.levels.includes('X') || known.floats.includes(true);
  }

  /** Looks of its LEDs in the middle of the present range. */
  looks(place: number): Uint8Array | undefined {
    return this.all[place]?.curve?.looks;
  }

  /** The looks of its LEDs at its rail's voltage; undefined if some input reads there otherwise than it was seen to. */
  looksNow(place: number): Uint8Array | undefined {
    const known = this.all[place] as Known;
    const { t, volts } = this.rests.railAt(place);
    const terms = known.curve?.terms;
    return terms && reads(known, known.reader.levels(terms, t, volts)) ? known.reader.looks(terms, t, volts) : undefined;
  }

  private curveOf(place: number, { curves, reader }: Known): BlockCurve | undefined {
    const terms = this.rests.curve(place);
    if (!terms) return undefined;
    const known = curves.get(terms) ?? reader.over(terms, this.rests.railAt(place).range);
    curves.set(terms, known);
    return known;
  }
}

/** Are these the levels that it was seen to have? */
const reads = ({ levels, floats }: Known, here: readonly Level[]): boolean => here.every((level, i) => floats[i] || level === levels[i]);
