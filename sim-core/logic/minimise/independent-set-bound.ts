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
  const size = cells.length;
  let looks = 0;
  /** marks of differences that lie in the family at hand: mark[d] = stamp */
  const mark = new Uint32Array(size);
  let stamp = 0;

  /**
   * Differences d for which a product holds row and row ⊕ d: no row between the two is 0. All parts of such a d are such too, so the list grows
   * bit by bit; d = 0 stands first.
   */
  function family(row: number, most: number): number[] {
    stamp++;
    const list = [0];
    mark[0] = stamp;
    for (let bit = 1; bit < size && list.length < most; bit *= 2) {
      const before = list.length;
      for (let i = 0; i < before; i++) {
        const d = (list[i] ?? 0) | bit;
        looks++;
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

  const ones = range(size).filter((row) => cells[row] === ON);
  const counted = Math.min(COUNTED, PATIENCE / ones.length);
  const order = ones.map((row) => ({ row, meets: family(row, counted).length })).sort((a, b) => a.meets - b.meets || a.row - b.row);
  looks = 0;

  const chosen = new Set<number>();
  /** how many chosen rows a row shares a product with, itself included */
  const met = new Uint16Array(size);
  function meet(row: number, by: 1 | -1): number[] {
    const list = family(row, size);
    for (const d of list) met[row ^ d] = (met[row ^ d] ?? 0) + by;
    return list;
  }
  for (const [i, { row }] of order.entries()) {
    if (met[row] !== 0) continue;
    chosen.add(row);
    meet(row, 1);
    progress((i / order.length) * 0.5);
  }

  for (let better = true; better && looks < PATIENCE; ) {
    better = false;
    for (const row of [...chosen]) {
      if (looks >= PATIENCE) break;
      progress(0.5 + (0.5 * looks) / PATIENCE);
      const instead = pairFor(row);
      if (!instead) continue;
      chosen.delete(row);
      meet(row, -1);
      for (const r of instead) {
        chosen.add(r);
        meet(r, 1);
      }
      better = true;
    }
  }
  return [...chosen].sort((a, b) => a - b);

  /** Two rows that meet this chosen row alone and not each other. */
  function pairFor(row: number): readonly [number, number] | undefined {
    const near = family(row, size)
      .map((d) => row ^ d)
      .filter((r) => r !== row && cells[r] === ON && met[r] === 1);
    for (const [i, first] of near.entries()) {
      if (looks >= PATIENCE) return undefined;
      family(first, size);
      const second = near.slice(i + 1).find((r) => mark[first ^ r] !== stamp);
      looks += near.length;
      if (second !== undefined) return [first, second];
    }
    return undefined;
  }
}
