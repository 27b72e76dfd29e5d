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

/** Rows still to be covered, and columns that may. */
interface Part {
  rows: Uint32Array;
  readonly columns: Uint32Array;
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
  const all: Part = { rows: bitsOf(range(rows), rows), columns: bitsOf(range(columns.length), columns.length) };
  const first = priceOfAll(problem, known);
  const atLeast = dualBound(problem, all.rows, all.columns, first).bound;
  const tree = new BranchAndBound(problem, patience, progress);
  const { price, chosen } = tree.search(all, first) ?? { price: first, chosen: known };
  return { chosen, atLeast: tree.ended ? price : Math.min(atLeast, price), proven: tree.ended };
}

const priceOfAll = ({ prices }: Problem, columns: readonly number[]): number => columns.reduce((sum, c) => sum + (prices[c] ?? 0), 0);

/** The tree of choices, gone through as long as patience lasts. */
class BranchAndBound {
  private nodes = 0;

  constructor(
    private readonly problem: Problem,
    private readonly patience: number,
    private readonly progress: (part: number) => void,
  ) {}

  /** every node was visited */
  get ended(): boolean {
    return this.nodes <= this.patience;
  }

  /** The cheapest cover of these rows below the budget. */
  search(of: Part, budget: number): Found | undefined {
    if (++this.nodes > this.patience) return undefined;
    this.progress(this.nodes / this.patience);
    const left = { rows: of.rows.slice(), columns: of.columns.slice() };
    const taken = this.bounded(left, budget);
    if (!taken || isEmpty(left.rows)) return taken;
    const parts = partsOf(this.problem, left);
    return parts.length > 1 ? this.inParts(parts, taken, budget) : this.branched(left, taken, budget);
  }

  /** Reduces what is left until no column is too dear any more; undefined if that leads to no cover below the budget. */
  private bounded(left: Part, budget: number): Found | undefined {
    const chosen: number[] = [];
    let price = 0;
    for (;;) {
      const taken = reduce(this.problem, left);
      if (!taken) return undefined;
      chosen.push(...taken);
      price += priceOfAll(this.problem, taken);
      if (price >= budget) return undefined;
      if (isEmpty(left.rows)) return { price, chosen };
      const { bound, tooDear } = dualBound(this.problem, left.rows, left.columns, budget - price);
      if (price + bound >= budget) return undefined;
      for (const c of tooDear) clearBit(left.columns, c);
      if (tooDear.length === 0) return { price, chosen };
    }
  }

  /** Each part on its own; what the others cost at least is kept back from its budget. */
  private inParts(parts: readonly Part[], taken: Found, budget: number): Found | undefined {
    const chosen = [...taken.chosen];
    let { price } = taken;
    const least = parts.map((p) => dualBound(this.problem, p.rows, p.columns, budget - price).bound);
    let waiting = least.reduce((a, b) => a + b, 0);
    for (const [i, part] of parts.entries()) {
      waiting -= least[i] ?? 0;
      const found = this.search(part, budget - price - waiting);
      if (!found) return undefined;
      chosen.push(...found.chosen);
      price += found.price;
    }
    return price < budget ? { price, chosen } : undefined;
  }

  /** With each column of the hardest row in turn; one that was tried is out of the next. */
  private branched(left: Part, taken: Found, budget: number): Found | undefined {
    let best: Found | undefined;
    for (const c of branches(this.problem, left)) {
      const rows = without(left.rows, this.problem.rowsOf[c]);
      clearBit(left.columns, c);
      const price = taken.price + (this.problem.prices[c] ?? 0);
      const found = this.search({ rows, columns: left.columns }, (best?.price ?? budget) - price);
      if (found) best = { price: price + found.price, chosen: [...taken.chosen, c, ...found.chosen] };
    }
    return best;
  }
}

/** Takes what must be taken and drops what cannot be needed; undefined if some row has lost all its columns. */
function reduce(problem: Problem, left: Part): number[] | undefined {
  const chosen: number[] = [];
  for (let changed = true; changed; ) {
    const essential = takeEssential(problem, left);
    if (!essential) return undefined;
    chosen.push(...essential);
    const fewerRows = dropRows(problem, left);
    const fewerColumns = dropColumns(problem, left);
    changed = essential.length > 0 || fewerRows || fewerColumns;
  }
  return chosen;
}

/** Columns that alone cover a row; undefined if a row has none. */
function takeEssential({ rowsOf, columnsOf }: Problem, left: Part): number[] | undefined {
  const taken: number[] = [];
  for (const r of listOf(left.rows)) {
    if (!hasBit(left.rows, r)) continue;
    const only = single(columnsOf[r], left.columns);
    if (only === 'none') return undefined;
    if (only === 'several') continue;
    taken.push(only);
    left.rows = without(left.rows, rowsOf[only]);
    clearBit(left.columns, only);
  }
  return taken;
}

/** A row that is covered whenever another is asks for nothing. */
function dropRows({ columnsOf }: Problem, left: Part): boolean {
  const rows = listOf(left.rows);
  const implied = (r: number) =>
    rows.some(
      (s) =>
        s !== r &&
        hasBit(left.rows, s) &&
        isWithin(columnsOf[s], columnsOf[r], left.columns) &&
        (s < r || !isWithin(columnsOf[r], columnsOf[s], left.columns)),
    );
  return dropped(left.rows, rows, implied);
}

/** A column that covers no more than another at no lower price is not needed. */
function dropColumns({ prices, rowsOf }: Problem, left: Part): boolean {
  const columns = listOf(left.columns);
  const beaten = (c: number) => {
    const price = prices[c] ?? 0;
    return columns.some((d) => {
      const other = prices[d] ?? 0;
      if (d === c || other > price || !hasBit(left.columns, d) || !isWithin(rowsOf[c], rowsOf[d], left.rows)) return false;
      return other < price || d < c || !isWithin(rowsOf[d], rowsOf[c], left.rows);
    });
  };
  return dropped(left.columns, columns, beaten);
}

/** Clears each bit that, as the others then stand, is dominated; whether there was one. */
function dropped(set: Uint32Array, bits: readonly number[], dominated: (bit: number) => boolean): boolean {
  let any = false;
  for (const b of bits) {
    if (!dominated(b)) continue;
    clearBit(set, b);
    any = true;
  }
  return any;
}

/** Columns of the row that has fewest, those that cover most first. */
function branches({ rowsOf, columnsOf }: Problem, { rows, columns }: Part): number[] {
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
function partsOf({ rowsOf, columnsOf }: Problem, { rows, columns }: Part): Part[] {
  const waiting = rows.slice();
  const parts: Part[] = [];
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
