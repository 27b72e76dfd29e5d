/**
 * A = L·D·Lᵀ for the matrix of a network of couplings, without pivoting and without one subtraction.
 * A's diagonal is never formed: it is a row's tie to the reference plus its couplings, all of them 0 or more, and so is what elimination leaves of it.
 * Thus rows that are connected by 1e8 and to ground by 1e-12 keep all their digits: W. K. Grassmann, M. I. Taksar, D. P. Heyman 1985, Operations
 * Research 33(5), for Markov chains (from memory). Analysed once per pattern as in T. A. Davis 2005, ACM TOMS 31, Algorithm 849.
 */
import { type Pattern, slotOf } from './pattern.ts';

export interface Factors {
  readonly pattern: Pattern;
  /** size n + 1; column k of L, below its diagonal, is start[k] … start[k + 1] − 1, rows ascending */
  readonly start: Int32Array;
  readonly row: Int32Array;
  /** couplings at the moment of elimination: column k of L is minus these over the pivot */
  readonly value: Float64Array;
  /** where the matrix holds this entry; −1 for one that elimination makes */
  readonly from: Int32Array;
  /** size n: ties to the reference at the moment of elimination, and 1 / pivot */
  readonly tie: Float64Array;
  readonly inverse: Float64Array;
  /** size n + 1 and nnz(L): row k of L has its columns in rowColumn[rowStart[k] …], ascending, its values at value[rowSlot[…]] */
  readonly rowStart: Int32Array;
  readonly rowColumn: Int32Array;
  readonly rowSlot: Int32Array;
  /** size n, workspace, 0 between calls */
  readonly work: Float64Array;
}

/** Elimination tree and the fill it causes; O(nnz(L)). */
export function analyse(pattern: Pattern): Factors {
  const { n } = pattern;
  const parent = new Int32Array(n).fill(-1);
  const seen = new Int32Array(n).fill(-1);
  const rowStart = new Int32Array(n + 1);
  const columns: number[] = [];
  const count = new Int32Array(n + 1);
  for (let k = 0; k < n; k++) {
    seen[k] = k;
    const reached: number[] = [];
    for (let p = pattern.start[k] as number; p < (pattern.start[k + 1] as number) - 1; p++)
      for (let i = pattern.row[p] as number; seen[i] !== k; i = parent[i] as number) {
        if (parent[i] === -1) parent[i] = k;
        seen[i] = k;
        reached.push(i);
      }
    reached.sort((a, b) => a - b);
    for (const i of reached) count[i + 1] = (count[i + 1] as number) + 1;
    columns.push(...reached);
    rowStart[k + 1] = columns.length;
  }
  for (let k = 0; k < n; k++) count[k + 1] = (count[k + 1] as number) + (count[k] as number);
  const next = count.slice();
  const row = new Int32Array(columns.length);
  const rowSlot = new Int32Array(columns.length);
  const from = new Int32Array(columns.length);
  for (let k = 0; k < n; k++)
    for (let q = rowStart[k] as number; q < (rowStart[k + 1] as number); q++) {
      const i = columns[q] as number;
      const slot = next[i] as number;
      next[i] = slot + 1;
      row[slot] = k;
      rowSlot[q] = slot;
      from[slot] = slotOf(pattern, pattern.order[i] as number, pattern.order[k] as number);
    }
  return {
    pattern,
    start: count,
    row,
    value: new Float64Array(columns.length),
    from,
    tie: new Float64Array(n),
    inverse: new Float64Array(n),
    rowStart,
    rowColumn: Int32Array.from(columns),
    rowSlot,
    work: new Float64Array(n),
  };
}

/**
 * New numbers into the same pattern. values: couplings and ties, 0 or more, as addressed by `slotOf`.
 * Returns −1, or a row of A that nothing ties to the reference, or whose values are no numbers.
 * The rows of the border are not eliminated: their columns then hold how the rest couples them to each other and ties them.
 */
export function refactor(f: Factors, values: Float64Array): number {
  const { n, border, start: aStart, order } = f.pattern;
  const { start, row, value, from, tie, inverse, rowStart, rowColumn, rowSlot, work: y } = f;
  for (let k = 0; k < n; k++) {
    const first = start[k] as number;
    const beyond = start[k + 1] as number;
    let toReference = values[(aStart[k + 1] as number) - 1] as number;
    // eliminating i < k left k coupled to all that i was coupled to, in proportion: g(k, j) ← g(k, j) + g(k, i)·g(i, j)/d(i)
    const last = rowStart[k + 1] as number;
    for (let q = rowStart[k] as number; q < last; q++) {
      const i = rowColumn[q] as number;
      if (i >= border) break;
      const slot = rowSlot[q] as number;
      const share = (value[slot] as number) * (inverse[i] as number);
      toReference += share * (tie[i] as number);
      const end = start[i + 1] as number;
      for (let p = slot + 1; p < end; p++) y[row[p] as number] = (y[row[p] as number] as number) + share * (value[p] as number);
    }
    let pivot = toReference;
    for (let p = first; p < beyond; p++) {
      const j = row[p] as number;
      const at = from[p] as number;
      const g = at < 0 ? (y[j] as number) : (y[j] as number) + (values[at] as number);
      y[j] = 0;
      value[p] = g;
      pivot += g;
    }
    tie[k] = toReference;
    if (k >= border) continue;
    if (!(pivot > 0)) {
      y.fill(0);
      return order[k] as number;
    }
    inverse[k] = 1 / pivot;
  }
  return -1;
}

/**
 * x ← A⁻¹·b; b and x may be one array. Sizes n or more; what stands beyond n is left alone.
 * solveBorder: what stands in the places from `border` on is a right-hand side, and becomes the answer there.
 */
export function solve(f: Factors, b: Float64Array, x: Float64Array, solveBorder?: (y: Float64Array) => void): void {
  const { n, border, order } = f.pattern;
  const { start, row, value, inverse, work: y } = f;
  for (let k = 0; k < n; k++) y[k] = b[order[k] as number] as number;
  for (let k = 0; k < border; k++) {
    const t = (y[k] as number) * (inverse[k] as number);
    y[k] = t;
    const end = start[k + 1] as number;
    if (t !== 0)
      for (let p = start[k] as number; p < end; p++) y[row[p] as number] = (y[row[p] as number] as number) + (value[p] as number) * t;
  }
  solveBorder?.(y);
  for (let k = border - 1; k >= 0; k--) {
    let s = 0;
    const end = start[k + 1] as number;
    for (let p = start[k] as number; p < end; p++) s += (value[p] as number) * (y[row[p] as number] as number);
    y[k] = (y[k] as number) + s * (inverse[k] as number);
  }
  for (let k = 0; k < n; k++) {
    x[order[k] as number] = y[k] as number;
    y[k] = 0;
  }
}
