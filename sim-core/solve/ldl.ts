/**
 * A = L·D·Lᵀ for a symmetric positive definite sparse matrix, without pivoting.
 * Analyse once per pattern, refactor for every new set of values, solve for every right-hand side.
 * Up-looking algorithm: T. A. Davis, "Algorithm 849: a concise sparse Cholesky factorization package", ACM TOMS 31 (2005).
 */
import type { Pattern } from './pattern.ts';

export interface Factors {
  readonly pattern: Pattern;
  /** size n + 1; column k of L, without its unit diagonal, is start[k] … start[k + 1] − 1, rows ascending */
  readonly start: Int32Array;
  readonly row: Int32Array;
  readonly value: Float64Array;
  /** size n + 1 and nnz(L): row k of L has its columns in rowColumn[rowStart[k] …], ascending, its values at value[rowSlot[…]] */
  readonly rowStart: Int32Array;
  readonly rowColumn: Int32Array;
  readonly rowSlot: Int32Array;
  /** size n */
  readonly diagonal: Float64Array;
  /** size n, workspace */
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
  for (let k = 0; k < n; k++)
    for (let q = rowStart[k] as number; q < (rowStart[k + 1] as number); q++) {
      const i = columns[q] as number;
      const slot = next[i] as number;
      next[i] = slot + 1;
      row[slot] = k;
      rowSlot[q] = slot;
    }
  return {
    pattern,
    start: count,
    row,
    value: new Float64Array(columns.length),
    rowStart,
    rowColumn: Int32Array.from(columns),
    rowSlot,
    diagonal: new Float64Array(n),
    work: new Float64Array(n),
  };
}

/**
 * New numbers into the same pattern. values: as addressed by `slotOf`.
 * lost: a pivot within this part of its own diagonal entry of 0 has been rounded away, and that part stands in for it; of a matrix known to be definite.
 * Returns −1, or the row of A whose pivot is not positive (the matrix is not positive definite there).
 */
export function refactor(f: Factors, values: Float64Array, lost = 0): number {
  const { n, start: aStart, row: aRow, order } = f.pattern;
  const { start, row, value, rowStart, rowColumn, rowSlot, diagonal, work: y } = f;
  for (let k = 0; k < n; k++) {
    const last = (aStart[k + 1] as number) - 1;
    for (let p = aStart[k] as number; p < last; p++) y[aRow[p] as number] = values[p] as number;
    let d = values[last] as number;
    const end = rowStart[k + 1] as number;
    for (let q = rowStart[k] as number; q < end; q++) {
      const i = rowColumn[q] as number;
      const slot = rowSlot[q] as number;
      const yi = y[i] as number;
      y[i] = 0;
      // y ← y − L(i+1 … k−1, i)·yᵢ, the part of column i above row k
      for (let p = start[i] as number; p < slot; p++) y[row[p] as number] = (y[row[p] as number] as number) - (value[p] as number) * yi;
      const l = yi / (diagonal[i] as number);
      d -= l * yi;
      value[slot] = l;
    }
    const least = lost * (values[last] as number);
    if (d < least && d >= -least) d = least;
    if (!(d > 0)) {
      y.fill(0);
      return order[k] as number;
    }
    diagonal[k] = d;
  }
  return -1;
}

/** x ← A⁻¹·b; b and x may be one array. Sizes n or more; what stands beyond n is left alone. */
export function solve(f: Factors, b: Float64Array, x: Float64Array): void {
  const { n, order } = f.pattern;
  const { start, row, value, diagonal, work: y } = f;
  for (let k = 0; k < n; k++) y[k] = b[order[k] as number] as number;
  for (let k = 0; k < n; k++) {
    const yk = y[k] as number;
    if (yk !== 0)
      for (let p = start[k] as number; p < (start[k + 1] as number); p++)
        y[row[p] as number] = (y[row[p] as number] as number) - (value[p] as number) * yk;
  }
  for (let k = n - 1; k >= 0; k--) {
    let s = (y[k] as number) / (diagonal[k] as number);
    for (let p = start[k] as number; p < (start[k + 1] as number); p++) s -= (value[p] as number) * (y[row[p] as number] as number);
    y[k] = s;
  }
  for (let k = 0; k < n; k++) {
    x[order[k] as number] = y[k] as number;
    y[k] = 0;
  }
}
