/** Wanted and seen data pins pair by pair: in how many rows do they differ, and which assignment of one to the other leaves fewest bits wrong? */
import { bitCount } from '../../units/bit-count.ts';
import type { Disorder, Words } from './disorder.ts';

/** At j · pins + k: rows in which both wanted pin j and seen pin k are given, and those of them in which they differ. */
export class ColumnPairs {
  readonly both: Uint32Array;
  readonly apart: Uint32Array;
  /** 32 rows at a time, a word a pin: wanted levels, wanted care, seen levels, seen care */
  private readonly packed: readonly [Int32Array, Int32Array, Int32Array, Int32Array];

  constructor(
    readonly pins: number,
    from?: ColumnPairs,
  ) {
    this.both = from ? from.both.slice() : new Uint32Array(pins * pins);
    this.apart = from ? from.apart.slice() : new Uint32Array(pins * pins);
    const words = () => new Int32Array(pins);
    this.packed = from?.packed ?? [words(), words(), words(), words()];
  }

  /** Adds rows: wanted word a[i] beside seen word x[i], for i from `from` up to `to`. */
  add(wanted: Words, seen: Words, a: ArrayLike<number>, x: ArrayLike<number>, from: number, to: number): void {
    for (let i = from; i < to; i += 32) this.addSome(wanted, seen, a, x, i, Math.min(to, i + 32));
  }

  private addSome(wanted: Words, seen: Words, a: ArrayLike<number>, x: ArrayLike<number>, from: number, to: number): void {
    const { pins, both, apart, packed } = this;
    for (const words of packed) words.fill(0);
    const [w, c, s, k] = packed;
    for (let i = from; i < to; i++) {
      const row = 1 << (i - from);
      const [care, known] = [wanted.care[a[i] as number] as number, seen.care[x[i] as number] as number];
      if (care === 0 || known === 0) continue;
      spread(wanted.words[a[i] as number] as number, row, w);
      spread(care, row, c);
      spread(seen.words[x[i] as number] as number, row, s);
      spread(known, row, k);
    }
    for (let j = 0; j < pins; j++) {
      if (c[j] === 0) continue;
      for (let m = 0; m < pins; m++) {
        const given = (c[j] as number) & (k[m] as number);
        if (given === 0) continue;
        both[j * pins + m] = (both[j * pins + m] as number) + bitCount(given);
        apart[j * pins + m] = (apart[j * pins + m] as number) + bitCount(((w[j] as number) ^ (s[m] as number)) & given);
      }
    }
  }

  /** Bits that stay wrong if wanted pin j is seen on pin k. */
  wrong(j: number, k: number, inverted: boolean): number {
    const at = j * this.pins + k;
    return inverted ? (this.both[at] as number) - (this.apart[at] as number) : (this.apart[at] as number);
  }

  /** Is nothing asked of wanted pin j? */
  isLoose(j: number): boolean {
    for (let k = 0; k < this.pins; k++) if (this.both[j * this.pins + k] !== 0) return false;
    return true;
  }

  /** At least so many bits stay wrong whatever the data pins are taken for. */
  least(): number {
    const { pins } = this;
    let [rows, columns] = [0, 0];
    for (let j = 0; j < pins; j++) {
      let [row, column] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
      for (let k = 0; k < pins; k++) {
        row = Math.min(row, this.wrong(j, k, false), this.wrong(j, k, true));
        column = Math.min(column, this.wrong(k, j, false), this.wrong(k, j, true));
      }
      rows += row;
      columns += column;
    }
    return Math.max(rows, columns);
  }
}

/** Bit j of the word into column j. */
function spread(word: number, row: number, columns: Int32Array): void {
  for (let rest = word; rest !== 0; rest &= rest - 1) {
    const j = 31 - Math.clz32(rest & -rest);
    if (j < columns.length) columns[j] = (columns[j] as number) | row;
  }
}

/**
 * All that is said of data pins by exchanging them, inverting them, or both: the assignments that leave at most `most` bits wrong, the best of each kind and
 * those one exchange from it. Empty lists: nothing needs to be said.
 */
export function dataReadings(pairs: ColumnPairs, most: number): readonly (readonly Disorder[])[] {
  const straight = Array.from({ length: pairs.pins }, (_, j) => j);
  const found: Disorder[][] = [];
  const note = (order: readonly number[], inverted: number) => {
    const wrong = order.reduce((sum, k, j) => sum + pairs.wrong(j, k, ((inverted >> j) & 1) === 1), 0);
    if (wrong > most) return;
    found.push([
      ...(inverted === 0 ? [] : [{ is: 'inverted', on: 'data', mask: inverted } as const]),
      ...(order.every((k, j) => k === j) ? [] : [{ is: 'permuted', on: 'data', order } as const]),
    ]);
  };
  note(straight, 0);
  note(straight, invertedFor(pairs, straight));
  for (const mayInvert of [false, true]) {
    const best = assigned(pairs, mayInvert);
    const near = [best, ...straight.flatMap((j) => straight.slice(j + 1).map((i) => exchanged(best, j, i)))];
    for (const order of near) note(order, mayInvert ? invertedFor(pairs, order) : 0);
  }
  return found;
}

const exchanged = (order: readonly number[], j: number, i: number): number[] =>
  order.map((k, at) => (at === j ? (order[i] ?? k) : at === i ? (order[j] ?? k) : k));

/** All of them, where all that matter are. */
function invertedFor(pairs: ColumnPairs, order: readonly number[]): number {
  const is = (k: number, j: number) => pairs.wrong(j, k, true) < pairs.wrong(j, k, false);
  if (order.every((k, j) => pairs.isLoose(j) || is(k, j))) return 2 ** order.length - 1;
  return order.reduce((mask, k, j) => (is(k, j) ? mask | (1 << j) : mask), 0);
}

/** The assignment of least cost, by dynamic programming over sets of pins: of equal ones that which moves and inverts fewest. */
function assigned(pairs: ColumnPairs, mayInvert: boolean): number[] {
  const m = pairs.pins;
  const price = Array.from({ length: m * m }, (_, at) => {
    const [j, k] = [Math.floor(at / m), at % m];
    const [straight, inverted] = [pairs.wrong(j, k, false), pairs.wrong(j, k, true)];
    return (j === k ? 0 : 0.01) + (mayInvert && inverted < straight ? inverted + 0.01 : straight);
  });
  const least = new Float64Array(2 ** m).fill(Number.POSITIVE_INFINITY);
  const choice = new Int8Array(2 ** m);
  least[0] = 0;
  for (let set = 0; set < 2 ** m; set++) {
    const j = bitCount(set);
    for (let k = 0; k < m && j < m; k++) {
      if ((set >> k) & 1) continue;
      const cost = (least[set] as number) + (price[j * m + k] as number);
      if (cost >= (least[set | (1 << k)] as number)) continue;
      least[set | (1 << k)] = cost;
      choice[set | (1 << k)] = k;
    }
  }
  const order = new Array<number>(m).fill(0);
  for (let set = 2 ** m - 1, j = m - 1; j >= 0; j--) {
    order[j] = choice[set] as number;
    set &= ~(1 << (choice[set] as number));
  }
  return mirrored(pairs, order) ?? order;
}

/** All pins turned end for end, where all that matter are. */
function mirrored(pairs: ColumnPairs, order: readonly number[]): number[] | undefined {
  const last = order.length - 1;
  const isMoved = order.some((k, j) => k !== j && !pairs.isLoose(j));
  return isMoved && order.every((k, j) => pairs.isLoose(j) || k === last - j) ? order.map((_, j) => last - j) : undefined;
}
