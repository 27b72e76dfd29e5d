/**
 * The cheapest choice of columns that together cover all rows: essential columns, dominance of rows and of columns, parts that do not touch each
 * other on their own, columns that prices on rows show to be too dear, then branch and bound.
 */
import { and, bitsOf, clearBit, firstBit, hasBit, isEmpty, isWithin, listOf, range, setBit, single, without } from './bit-sets.ts';
import { dualBound, type Problem } from './dual-bound.ts';

export interface Covering {
  readonly chosen: readonly number[];
  /** no choice is cheaper than this; equal to the price of `chosen` if the search came to its end */
  readonly atLeast: number;
  readonly proven: boolean;
}

interface Found {
  readonly price: number;
  readonly chosen: readonly number[];
}

/** rows: how many; columns: the rows each covers; known: any cover, as a first bound; patience: nodes to visit at most; progress: the part of it that is used up. */
export function cheapestCover(
  rows: number,
  columns: readonly (readonly number[])[],
  prices: readonly number[],
  known: readonly number[],
  patience: number,
  progress: (part: number) => void = () => {},
): Covering {
  const problem: Problem = {
    prices,
    rowsOf: columns.map((covered) => bitsOf(covered, rows)),
    columnsOf: Array.from({ length: rows }, () => new Uint32Array((columns.length + 31) >> 5)),
  };
  for (const [c, covered] of columns.entries()) for (const r of covered) setBit(problem.columnsOf[r], c);
  const rowsLeft = bitsOf(range(rows), rows);
  const columnsLeft = bitsOf(range(columns.length), columns.length);
  const first = known.reduce((sum, c) => sum + (prices[c] ?? 0), 0);
  const atLeast = dualBound(problem, rowsLeft, columnsLeft, first).bound;
  let nodes = 0;

  function search(rowsIn: Uint32Array, columnsIn: Uint32Array, budget: number): Found | undefined {
    if (++nodes > patience) return undefined;
    progress(nodes / patience);
    const left = { rows: rowsIn.slice(), columns: columnsIn.slice() };
    const chosen: number[] = [];
    let price = 0;
    for (let dropped = true; dropped; ) {
      const taken = reduce(problem, left);
      if (!taken) return undefined;
      chosen.push(...taken);
      price += taken.reduce((sum, c) => sum + (prices[c] ?? 0), 0);
      if (price >= budget) return undefined;
      if (isEmpty(left.rows)) return { price, chosen };
      const { bound, tooDear } = dualBound(problem, left.rows, left.columns, budget - price);
      if (price + bound >= budget) return undefined;
      for (const c of tooDear) clearBit(left.columns, c);
      dropped = tooDear.length > 0;
    }

    const parts = partsOf(problem, left.rows, left.columns);
    if (parts.length > 1) {
      const least = parts.map((p) => dualBound(problem, p.rows, p.columns, budget - price).bound);
      let waiting = least.reduce((a, b) => a + b, 0);
      for (const [i, part] of parts.entries()) {
        waiting -= least[i] ?? 0;
        const found = search(part.rows, part.columns, budget - price - waiting);
        if (!found) return undefined;
        chosen.push(...found.chosen);
        price += found.price;
      }
      return price < budget ? { price, chosen } : undefined;
    }

    let best: Found | undefined;
    for (const c of branches(problem, left.rows, left.columns)) {
      const rest = without(left.rows, problem.rowsOf[c]);
      clearBit(left.columns, c);
      const limit = (best?.price ?? budget) - price - (prices[c] ?? 0);
      const found = search(rest, left.columns, limit);
      if (found) best = { price: price + (prices[c] ?? 0) + found.price, chosen: [...chosen, c, ...found.chosen] };
    }
    return best;
  }

  const found = search(rowsLeft, columnsLeft, first);
  const proven = nodes <= patience;
  const answer = found ?? { price: first, chosen: known };
  return { chosen: answer.chosen, atLeast: proven ? answer.price : Math.min(atLeast, answer.price), proven };
}

/** Takes what must be taken and drops what cannot be needed; undefined if some row has lost all its columns. */
function reduce({ prices, rowsOf, columnsOf }: Problem, left: { rows: Uint32Array; columns: Uint32Array }): number[] | undefined {
  const chosen: number[] = [];
  for (let changed = true; changed; ) {
    changed = false;
    for (const r of listOf(left.rows)) {
      if (!hasBit(left.rows, r)) continue;
      const only = single(columnsOf[r], left.columns);
      if (only === 'none') return undefined;
      if (only === 'several') continue;
      chosen.push(only);
      left.rows = without(left.rows, rowsOf[only]);
      clearBit(left.columns, only);
      changed = true;
    }
    // a row that is covered whenever another is asks for nothing
    const rows = listOf(left.rows);
    for (const r of rows) {
      if (
        !rows.some(
          (s) =>
            s !== r &&
            hasBit(left.rows, s) &&
            isWithin(columnsOf[s], columnsOf[r], left.columns) &&
            (s < r || !isWithin(columnsOf[r], columnsOf[s], left.columns)),
        )
      )
        continue;
      clearBit(left.rows, r);
      changed = true;
    }
    // a column that covers no more than another at no lower price is not needed
    const columns = listOf(left.columns);
    for (const c of columns) {
      const price = prices[c] ?? 0;
      const beaten = columns.some((d) => {
        const other = prices[d] ?? 0;
        if (d === c || other > price || !hasBit(left.columns, d) || !isWithin(rowsOf[c], rowsOf[d], left.rows)) return false;
        return other < price || d < c || !isWithin(rowsOf[d], rowsOf[c], left.rows);
      });
      if (!beaten) continue;
      clearBit(left.columns, c);
      changed = true;
    }
  }
  return chosen;
}

/** Columns of the row that has fewest, those that cover most first. */
function branches({ rowsOf, columnsOf }: Problem, rows: Uint32Array, columns: Uint32Array): number[] {
  let best: number[] | undefined;
  for (const r of listOf(rows)) {
    const list = listOf(and(columnsOf[r], columns));
    if (!best || list.length < best.length) best = list;
  }
  const gain = (c: number) => listOf(and(rowsOf[c], rows)).length;
  return (best ?? [])
    .map((c) => ({ c, gain: gain(c) }))
    .sort((a, b) => b.gain - a.gain || a.c - b.c)
    .map(({ c }) => c);
}

/** Rows and columns that no column joins to the rest. */
function partsOf({ rowsOf, columnsOf }: Problem, rows: Uint32Array, columns: Uint32Array): { rows: Uint32Array; columns: Uint32Array }[] {
  const waiting = rows.slice();
  const parts: { rows: Uint32Array; columns: Uint32Array }[] = [];
  for (let seed = firstBit(waiting); seed >= 0; seed = firstBit(waiting)) {
    const part = { rows: new Uint32Array(rows.length), columns: new Uint32Array(columns.length) };
    const stack = [seed];
    clearBit(waiting, seed);
    for (let r = stack.pop(); r !== undefined; r = stack.pop()) {
      setBit(part.rows, r);
      for (const c of listOf(and(columnsOf[r], columns))) {
        if (hasBit(part.columns, c)) continue;
        setBit(part.columns, c);
        for (const s of listOf(and(rowsOf[c], waiting))) {
          clearBit(waiting, s);
          stack.push(s);
        }
      }
    }
    parts.push(part);
  }
  return parts;
}
