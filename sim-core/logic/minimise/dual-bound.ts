/**
 * A lower bound for covering: every row pays a price u ≥ 0, and Σu + Σ min(0, what a column costs beyond its rows' prices) never exceeds the cheapest
 * cover (Lagrange). Prices begin by dual ascent and are improved by subgradient steps (Held and Karp 1971, from memory).
 */
import { and, listOf } from './bit-sets.ts';

export interface Problem {
  /** whole numbers */
  readonly prices: readonly number[];
  /** rows of each column and columns of each row, bits in words */
  readonly rowsOf: readonly Uint32Array[];
  readonly columnsOf: readonly Uint32Array[];
}

const STEPS = 50;
/** Steps without gain before the step is halved. */
const HALVE = 6;
/** Sums of prices are whole numbers, so a bound is rounded up, but for rounding. */
const ROUNDING = 1e-6;

/** budget: what a cover must stay below to matter. tooDear: columns that no such cover has. */
export function dualBound(
  { prices, columnsOf, rowsOf }: Problem,
  rows: Uint32Array,
  columns: Uint32Array,
  budget: number,
): { readonly bound: number; readonly tooDear: readonly number[] } {
  const rowList = listOf(rows);
  const columnList = listOf(columns);
  const pays = new Float64Array(columnsOf.length);
  const spare = new Float64Array(rowsOf.length);
  const covered = columnList.map((c) => listOf(and(rowsOf[c], rows)));

  // dual ascent: each row in turn, the hardest to cover first, pays the least that its columns still ask for
  for (const c of columnList) spare[c] = prices[c] ?? 0;
  const byChoice = rowList
    .map((r) => ({ r, list: listOf(and(columnsOf[r], columns)) }))
    .sort((a, b) => a.list.length - b.list.length || a.r - b.r);
  for (const { r, list } of byChoice) {
    if (list.length === 0) return { bound: Number.POSITIVE_INFINITY, tooDear: [] };
    const price = list.reduce((least, c) => Math.min(least, spare[c] ?? 0), Number.POSITIVE_INFINITY);
    pays[r] = price;
    for (const c of list) spare[c] = (spare[c] ?? 0) - price;
  }

  const missing = new Float64Array(columnsOf.length);
  let best = 0;
  let bestSpare = spare.slice();
  let step = 2;
  let idle = 0;
  for (let i = 0; i < STEPS; i++) {
    let sum = 0;
    for (const r of rowList) {
      sum += pays[r] ?? 0;
      missing[r] = 1;
    }
    for (const [k, c] of columnList.entries()) {
      let left = prices[c] ?? 0;
      const list = covered[k] ?? [];
      for (const r of list) left -= pays[r] ?? 0;
      spare[c] = left;
      if (left >= 0) continue;
      sum += left;
      for (const r of list) missing[r] = (missing[r] ?? 0) - 1;
    }
    if (sum > best + ROUNDING) {
      best = sum;
      bestSpare = spare.slice();
      idle = 0;
      if (Math.ceil(best - ROUNDING) >= budget) break;
    } else if (++idle % HALVE === 0) step /= 2;
    let norm = 0;
    for (const r of rowList) norm += (missing[r] ?? 0) ** 2;
    if (norm === 0) break;
    const by = (step * Math.max(1, budget - sum)) / norm;
    for (const r of rowList) pays[r] = Math.max(0, (pays[r] ?? 0) + by * (missing[r] ?? 0));
  }
  const tooDear = columnList.filter((c) => (bestSpare[c] ?? 0) > 0 && Math.ceil(best + (bestSpare[c] ?? 0) - ROUNDING) >= budget);
  return { bound: Math.ceil(best - ROUNDING), tooDear };
}
