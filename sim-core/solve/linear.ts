/** One linear system after another of one pattern: sparse LDLᵀ where the matrix is symmetric, dense LU with partial pivoting where it is not. */
import type { Equations } from './equations.ts';
import { analyse, refactor, solve } from './ldl.ts';

export interface Linear {
  /** values by slot, the skew entries as the equations hold them now; returns −1, or a row at which it failed */
  refactor(values: Float64Array): number;
  /** x ← A⁻¹·b; b and x may be one array */
  solve(b: Float64Array, x: Float64Array): void;
  /** x ← A⁻ᵀ·b, what every right-hand side does to one unknown; b and x may be one array */
  solveTransposed(b: Float64Array, x: Float64Array): void;
}

export function makeLinear(equations: Equations): Linear {
  return equations.skew ? makeDense(equations) : makeSparse(equations);
}

function makeSparse({ pattern }: Equations): Linear {
  const factors = analyse(pattern);
  return {
    refactor: (values) => refactor(factors, values),
    solve: (b, x) => solve(factors, b, x),
    solveTransposed: (b, x) => solve(factors, b, x),
  };
}

/** Gaussian elimination with partial pivoting, row by row: G. H. Golub, C. F. Van Loan, Matrix Computations, algorithm 3.4.1. */
function makeDense(equations: Equations): Linear {
  const { n } = equations;
  const a = new Float64Array(n * n);
  const pivot = new Int32Array(n);
  const y = new Float64Array(n);
  return {
    refactor(values) {
      fillDense(equations, values, a);
      return factorDense(a, n, pivot);
    },
    solve(b, x) {
      for (let i = 0; i < n; i++) y[i] = b[i] as number;
      for (let k = 0; k < n; k++) {
        const best = pivot[k] as number;
        const held = y[k] as number;
        y[k] = y[best] as number;
        y[best] = held;
      }
      for (let i = 0; i < n; i++) {
        let s = y[i] as number;
        for (let j = 0; j < i; j++) s -= (a[i * n + j] as number) * (y[j] as number);
        y[i] = s;
      }
      for (let i = n - 1; i >= 0; i--) {
        let s = y[i] as number;
        for (let j = i + 1; j < n; j++) s -= (a[i * n + j] as number) * (y[j] as number);
        y[i] = s / (a[i * n + i] as number);
      }
      for (let i = 0; i < n; i++) x[i] = y[i] as number;
    },
    // Uᵀ·y = b, Lᵀ·z = y, then the exchanges of rows in reverse
    solveTransposed(b, x) {
      for (let i = 0; i < n; i++) {
        let s = b[i] as number;
        for (let j = 0; j < i; j++) s -= (a[j * n + i] as number) * (y[j] as number);
        y[i] = s / (a[i * n + i] as number);
      }
      for (let i = n - 1; i >= 0; i--) {
        let s = y[i] as number;
        for (let j = i + 1; j < n; j++) s -= (a[j * n + i] as number) * (y[j] as number);
        y[i] = s;
      }
      for (let k = n - 1; k >= 0; k--) {
        const best = pivot[k] as number;
        const held = y[k] as number;
        y[k] = y[best] as number;
        y[best] = held;
      }
      for (let i = 0; i < n; i++) x[i] = y[i] as number;
    },
  };
}

/** The matrix row by row: each value of the pattern is a conductance between two rows, or from one to ground; `skew` adds what has no mirror image. */
function fillDense({ n, pattern, skew }: Equations, values: Float64Array, a: Float64Array): void {
  a.fill(0);
  for (let k = 0; k < n; k++)
    for (let p = pattern.start[k] as number; p < (pattern.start[k + 1] as number); p++) {
      const i = pattern.order[pattern.row[p] as number] as number;
      const j = pattern.order[k] as number;
      const g = values[p] as number;
      a[i * n + i] = (a[i * n + i] as number) + g;
      if (i === j) continue;
      a[j * n + j] = (a[j * n + j] as number) + g;
      a[i * n + j] = -g;
      a[j * n + i] = -g;
    }
  for (let q = 0; skew && q < skew.values.length; q++) {
    const i = skew.rows[q] as number;
    const j = skew.columns[q] as number;
    if (i < n && j < n) a[i * n + j] = (a[i * n + j] as number) + (skew.values[q] as number);
  }
}

/** P·A = L·U in place, partial pivoting; −1, or the column that has no pivot. */
function factorDense(a: Float64Array, n: number, pivot: Int32Array): number {
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i * n + k] as number) > Math.abs(a[best * n + k] as number)) best = i;
    pivot[k] = best;
    if (best !== k)
      for (let j = 0; j < n; j++) {
        const held = a[k * n + j] as number;
        a[k * n + j] = a[best * n + j] as number;
        a[best * n + j] = held;
      }
    const d = a[k * n + k] as number;
    if (!(Math.abs(d) > 0)) return k;
    for (let i = k + 1; i < n; i++) {
      const l = (a[i * n + k] as number) / d;
      a[i * n + k] = l;
      if (l !== 0) for (let j = k + 1; j < n; j++) a[i * n + j] = (a[i * n + j] as number) - l * (a[k * n + j] as number);
    }
  }
  return -1;
}
