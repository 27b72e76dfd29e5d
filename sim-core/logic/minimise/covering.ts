/**
 * The cheapest choice of columns that together cover all rows: essential columns, dominance of rows and of columns, parts that do not touch each
 * other on their own, then branch and bound with the dual ascent as lower bound (each row pays what its columns still allow; the sum cannot exceed the optimum).
 */

export interface Covering {
  readonly chosen: readonly number[];
  /** no choice is cheaper than this; equal to the price of `chosen` if the search came to its end */
  readonly atLeast: number;
  readonly proven: boolean;
}

interface Problem {
  readonly prices: readonly number[];
  /** rows of each column and columns of each row, bits in words */
  readonly rowsOf: readonly Uint32Array[];
  readonly columnsOf: readonly Uint32Array[];
}

interface Found {
  readonly price: number;
  readonly chosen: readonly number[];
}

/** rows: how many; columns: the rows each covers; known: any cover, as a first bound; patience: nodes to visit at most. */
export function cheapestCover(
  rows: number,
  columns: readonly (readonly number[])[],
  prices: readonly number[],
  known: readonly number[],
  patience: number,
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
  const atLeast = dualAscent(problem, rowsLeft, columnsLeft);
  let nodes = 0;

  function search(rowsIn: Uint32Array, columnsIn: Uint32Array, budget: number): Found | undefined {
    if (++nodes > patience) return undefined;
    const left = { rows: rowsIn.slice(), columns: columnsIn.slice() };
    const chosen = reduce(problem, left);
    if (!chosen) return undefined;
    let price = chosen.reduce((sum, c) => sum + (prices[c] ?? 0), 0);
    if (price >= budget) return undefined;
    if (isEmpty(left.rows)) return { price, chosen };

    const parts = partsOf(problem, left.rows, left.columns);
    if (parts.length > 1) {
      const least = parts.map((p) => dualAscent(problem, p.rows, p.columns));
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

    if (price + dualAscent(problem, left.rows, left.columns) >= budget) return undefined;
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

/** Each row in turn, the hardest to cover first, pays the least that its columns still ask for. */
function dualAscent({ prices, columnsOf }: Problem, rows: Uint32Array, columns: Uint32Array): number {
  const slack = [...prices];
  const byChoice = listOf(rows)
    .map((r) => ({ r, list: listOf(and(columnsOf[r], columns)) }))
    .sort((a, b) => a.list.length - b.list.length || a.r - b.r);
  let sum = 0;
  for (const { list } of byChoice) {
    let pays = Number.POSITIVE_INFINITY;
    for (const c of list) pays = Math.min(pays, slack[c] ?? 0);
    if (!Number.isFinite(pays)) continue;
    sum += pays;
    for (const c of list) slack[c] = (slack[c] ?? 0) - pays;
  }
  return sum;
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

const range = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
function bitsOf(list: readonly number[], size: number): Uint32Array {
  const words = new Uint32Array((size + 31) >> 5);
  for (const i of list) setBit(words, i);
  return words;
}
function setBit(words: Uint32Array | undefined, i: number): void {
  if (words) words[i >> 5] = ((words[i >> 5] ?? 0) | (1 << (i & 31))) >>> 0;
}
function clearBit(words: Uint32Array, i: number): void {
  words[i >> 5] = ((words[i >> 5] ?? 0) & ~(1 << (i & 31))) >>> 0;
}
const hasBit = (words: Uint32Array, i: number): boolean => (((words[i >> 5] ?? 0) >>> (i & 31)) & 1) === 1;
const isEmpty = (words: Uint32Array): boolean => words.every((w) => w === 0);
const and = (a: Uint32Array | undefined, b: Uint32Array): Uint32Array => b.map((w, i) => w & (a?.[i] ?? 0));
const without = (a: Uint32Array, b: Uint32Array | undefined): Uint32Array => a.map((w, i) => w & ~(b?.[i] ?? 0));
const firstBit = (words: Uint32Array): number => {
  const i = words.findIndex((w) => w !== 0);
  return i < 0 ? -1 : 32 * i + 31 - Math.clz32((words[i] ?? 0) & -(words[i] ?? 0));
};

/** Is a, where mask has bits, inside b? */
function isWithin(a: Uint32Array | undefined, b: Uint32Array | undefined, mask: Uint32Array): boolean {
  for (let i = 0; i < mask.length; i++) if ((a?.[i] ?? 0) & ~(b?.[i] ?? 0) & (mask[i] ?? 0)) return false;
  return true;
}

function single(a: Uint32Array | undefined, mask: Uint32Array): number | 'none' | 'several' {
  let found: number | 'none' = 'none';
  for (let i = 0; i < mask.length; i++) {
    const w = (a?.[i] ?? 0) & (mask[i] ?? 0);
    if (w === 0) continue;
    if (found !== 'none' || (w & (w - 1)) !== 0) return 'several';
    found = 32 * i + 31 - Math.clz32(w);
  }
  return found;
}

/** Numbers of the bits that are 1, ascending. */
function listOf(words: Uint32Array): number[] {
  const list: number[] = [];
  for (let i = 0; i < words.length; i++)
    for (let rest = words[i] ?? 0; rest !== 0; rest &= rest - 1) list.push(32 * i + 31 - Math.clz32(rest & -rest));
  return list;
}
