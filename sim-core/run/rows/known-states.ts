/** The states that blocks of a bench have been seen in: how they read, and how they rest over the present range of their rail. */
import type { Network } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import { BlockClass, type BlockParts } from './block-class.ts';
import { type BlockCurve, BlockReader } from './block-reader.ts';
import { TERMS } from './polynomial.ts';
import { exact, type SupplyRail } from './supply-rail.ts';

/** A state of a class that the event engine has shown. */
interface Known {
  readonly kind: number;
  readonly state: number;
  readonly rail: number;
  /** of its inputs; an input that floats is X, or H where an open one counts as high. States of a class that read alike share one list. */
  readonly levels: readonly Level[];
  readonly floats: readonly boolean[];
  /** by range of its rail; null: it can't be had there */
  readonly curves: Map<string, BlockCurve | null>;
  /** in the present range */
  curve: BlockCurve | undefined;
}

/** No curve in the present range; one; one whose levels or looks are not the same all over the range. */
export const BARE = 0;
export const STEADY = 1;
const WAVERS = 2;

export class KnownStates {
  readonly all: Known[] = [];
  // by known state, as numbers side by side
  standing = new Uint8Array(0);
  /** TERMS of what it takes [A] */
  taken = new Float64Array(0);
  /** which list of levels it reads, and the look of its first LED */
  list = new Int32Array(0);
  look = new Uint8Array(0);
  private readonly rails: readonly SupplyRail[];
  private readonly classes: readonly BlockClass[];
  private readonly readers: readonly BlockReader[];

  /** samples: one block of each class. */
  constructor(network: Network, rails: readonly SupplyRail[], samples: readonly BlockParts[]) {
    this.rails = rails;
    this.classes = samples.map((parts) => new BlockClass(network, parts));
    this.readers = samples.map((parts) => new BlockReader(network, parts));
  }

  /** A state of this class is seen for the first time; its place. levels: as its inputs read. countsHigh: open ones that count as high. */
  add(kind: number, state: number, levels: readonly Level[], countsHigh: readonly boolean[]): number {
    const alike = this.all.find((k) => k.kind === kind && k.levels.join() === levels.join());
    const node = (this.classes[kind] as BlockClass).parts.rail;
    const rail = this.rails.findIndex((r) => r.node === node);
    const known: Known = { kind, state, rail, levels: alike?.levels ?? levels, floats: [], curves: new Map(), curve: undefined };
    const here = this.curveOf(known);
    const floats = levels.map((level, i) => level !== here?.levels[i] && (level === 'X' || countsHigh[i] === true));
    const place = this.all.push({ ...known, floats }) - 1;
    this.grow(place);
    this.list[place] = alike ? (this.list[this.all.indexOf(alike)] as number) : place;
    return place;
  }

  /** The ranges are others: no state has a curve there until it is asked for. */
  forget(): void {
    for (const known of this.all) known.curve = undefined;
    this.standing.fill(BARE);
  }

  /** Takes a state's curve in the present range; false if it has none. */
  take(place: number): boolean {
    const known = this.all[place] as Known;
    const curve = this.curveOf(known);
    if (!curve) return false;
    known.curve = curve;
    const at = curve.terms.length - TERMS;
    for (let d = 0; d < TERMS; d++) this.taken[place * TERMS + d] = exact(curve.terms[at + d] as number);
    this.look[place] = curve.looks[0] ?? 0;
    this.standing[place] = curve.steady && reads(known, curve.levels) ? STEADY : WAVERS;
    return true;
  }

  /** The looks of its LEDs at this rail's voltage; undefined if some input reads there otherwise than it was seen to. */
  looksNow(place: number): Uint8Array | undefined {
    const known = this.all[place] as Known;
    const reader = this.readers[known.kind] as BlockReader;
    const { t, volts } = this.rails[known.rail] as SupplyRail;
    const terms = known.curve?.terms;
    return terms && reads(known, reader.levels(terms, t, volts)) ? reader.looks(terms, t, volts) : undefined;
  }

  private curveOf({ curves, kind, state, rail }: Known): BlockCurve | undefined {
    const { range } = this.rails[rail] as SupplyRail;
    const key = `${range.middle} ${range.half}`;
    let curve = curves.get(key);
    if (curve === undefined) {
      const terms = (this.classes[kind] as BlockClass).curve(state, range);
      curve = terms ? (this.readers[kind] as BlockReader).over(terms, range) : null;
      curves.set(key, curve);
    }
    return curve ?? undefined;
  }

  private grow(place: number): void {
    if (place < this.standing.length) return;
    const length = 2 * (place + 8);
    const { standing, taken, list, look } = this;
    this.standing = new Uint8Array(length);
    this.taken = new Float64Array(length * TERMS);
    this.list = new Int32Array(length);
    this.look = new Uint8Array(length);
    this.standing.set(standing);
    this.taken.set(taken);
    this.list.set(list);
    this.look.set(look);
  }
}

/** Are these the levels that it was seen to have? */
const reads = ({ levels, floats }: Known, here: readonly Level[]): boolean => here.every((level, i) => floats[i] || level === levels[i]);
