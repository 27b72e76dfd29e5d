/**
 * A lower bound for any sum of products: rows of 1 of which no one product covers two, since the smallest product that holds both holds a row of 0 too.
 * Each needs a product of its own. The independent set bound of covering (Coudert, "On Solving Covering Problems", DAC 1996), found row by row,
 * those that meet fewest others first, then improved by taking one out for two (the swap is common practice, no source).
 */
import { range } from './bit-sets.ts';
import { ABSENT_WORD, ON } from './cube.ts';

/** Rows looked at before swapping ends, and about as many while rows are put in order: a second at most, for sixteen inputs. */
const PATIENCE = 4_000_000;
/** Rows met are counted to so many; those that meet more wait in the order of their number. */
const COUNTED = 512;

/** progress: called with 0 to 1. */
export function independentSetBound(cells: Uint8Array, progress: (part: number) => void = () => {}): readonly number[] {
  const set = new IndependentRows(cells);
  set.takeGreedily((part) => progress(part * 0.5));
  set.improve((part) => progress(0.5 + 0.5 * part));
  return [...set.chosen].sort((a, b) => a - b);
}

class IndependentRows {
  readonly chosen = new Set<number>();
  private readonly size: number;
  /** rows looked at */
  private looks = 0;
  /** marks of differences that lie in the family at hand: mark[d] = stamp */
  private readonly mark: Uint32Array;
  private stamp = 0;
  /** how many chosen rows a row shares a product with, itself included */
  private readonly met: Uint16Array;

  constructor(private readonly cells: Uint8Array) {
    this.size = cells.length;
    this.mark = new Uint32Array(this.size);
    this.met = new Uint16Array(this.size);
  }

  /** Rows that meet fewest others first, each that meets none chosen before it. progress: called with 0 to 1. */
  takeGreedily(progress: (part: number) => void) {
    const ones = range(this.size).filter((row) => this.cells[row] === ON);
    const counted = Math.min(COUNTED, PATIENCE / ones.length);
    const order = ones.map((row) => ({ row, meets: this.family(row, counted).length })).sort((a, b) => a.meets - b.meets || a.row - b.row);
    this.looks = 0;
    for (const [i, { row }] of order.entries()) {
      if (this.met[row] !== 0) continue;
      this.choose(row);
      progress(i / order.length);
    }
  }

  /** Takes one out for two, until there is no such one or patience ends. progress: called with 0 to 1. */
  improve(progress: (part: number) => void) {
    for (let better = true; better && this.looks < PATIENCE; ) {
      better = false;
      for (const row of [...this.chosen]) {
        if (this.looks >= PATIENCE) break;
        progress(this.looks / PATIENCE);
        const instead = this.pairFor(row);
        if (!instead) continue;
        this.chosen.delete(row);
        this.meet(row, -1);
        for (const r of instead) this.choose(r);
        better = true;
      }
    }
  }

  private choose(row: number) {
    this.chosen.add(row);
    this.meet(row, 1);
  }

  private meet(row: number, by: 1 | -1) {
    const { met } = this;
    for (const d of this.family(row, this.size)) met[row ^ d] = (met[row ^ d] ?? 0) + by;
  }

  /**
   * Differences d for which a product holds row and row ⊕ d: no row between the two is 0. All parts of such a d are such too, so the list grows
   * bit by bit; d = 0 stands first.
   */
  private family(row: number, most: number): number[] {
    const { cells, mark, size } = this;
    const stamp = ++this.stamp;
    const list = [0];
    mark[0] = stamp;
    for (let bit = 1; bit < size && list.length < most; bit *= 2) {
      const before = list.length;
      this.looks += before;
      for (let i = 0; i < before; i++) {
        const d = (list[i] ?? 0) | bit;
        if (cells[row ^ d] === ABSENT_WORD) continue;
        let whole = true;
        for (let rest = d ^ bit; rest !== 0 && whole; rest &= rest - 1) whole = mark[d ^ (rest & -rest)] === stamp;
        if (!whole) continue;
        mark[d] = stamp;
        list.push(d);
      }
    }
    return list;
  }

  /** Two rows that meet this chosen row alone and not each other. */
  private pairFor(row: number): readonly [number, number] | undefined {
    const near = this.family(row, this.size)
      .map((d) => row ^ d)
      .filter((r) => r !== row && this.cells[r] === ON && this.met[r] === 1);
    for (const [i, first] of near.entries()) {
      if (this.looks >= PATIENCE) return undefined;
      this.family(first, this.size);
      const second = near.slice(i + 1).find((r) => this.mark[first ^ r] !== this.stamp);
      this.looks += near.length;
      if (second !== undefined) return [first, second];
    }
    return undefined;
  }
}
