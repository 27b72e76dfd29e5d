/**
 * One linear system after another of one pattern: sparse LDLᵀ where the matrix is symmetric. Rows without symmetry are its border: what the elimination of all
 * others leaves of them is small, and dense LU with partial pivoting solves it.
 */
import type { Equations, Skew } from './equations.ts';
import { analyse, type Factors, refactor, solve } from './ldl.ts';

export interface Linear {
  /** values by slot, the skew entries as the equations hold them now; returns −1, or a row at which it failed */
  refactor(values: Float64Array): number;
  /** x ← A⁻¹·b; b and x may be one array */
  solve(b: Float64Array, x: Float64Array): void;
  /** x ← A⁻ᵀ·b, what every right-hand side does to one unknown; b and x may be one array */
  solveTransposed(b: Float64Array, x: Float64Array): void;
}

export function makeLinear({ pattern, skew }: Equations): Linear {
  const factors = analyse(pattern);
  if (skew) return makeBordered(factors, skew);
  return {
    refactor: (values) => refactor(factors, values),
    solve: (b, x) => solve(factors, b, x),
    solveTransposed: (b, x) => solve(factors, b, x),
  };
}

function makeBordered(factors: Factors, skew: Skew): Linear {
  const { n, border, order } = factors.pattern;
  const dense = new Dense(n - border);
  const straight = (y: Float64Array) => dense.solve(y, border);
  const transposed = (y: Float64Array) => dense.solveTransposed(y, border);
  return {
    refactor(values) {
      const bad = refactor(factors, values);
      if (bad >= 0) return bad;
      fillBorder(factors, skew, dense.a);
      const column = dense.factor();
      return column < 0 ? -1 : (order[border + column] as number);
    },
    solve: (b, x) => solve(factors, b, x, straight),
    solveTransposed: (b, x) => solve(factors, b, x, transposed),
  };
}

/** The border row by row: couplings between its rows and ties as elimination left them; `skew` adds what has no mirror image. */
function fillBorder({ pattern, start, row, value, tie }: Factors, skew: Skew, a: Float64Array): void {
  const { n, border, place } = pattern;
  const size = n - border;
  a.fill(0);
  const put = (i: number, j: number, g: number) => {
    const at = (i - border) * size + (j - border);
    a[at] = (a[at] as number) + g;
  };
  for (let k = border; k < n; k++) {
    put(k, k, tie[k] as number);
    for (let p = start[k] as number; p < (start[k + 1] as number); p++) {
      const j = row[p] as number;
      const g = value[p] as number;
      put(k, k, g);
      put(j, j, g);
      put(k, j, -g);
      put(j, k, -g);
    }
  }
  for (let q = 0; q < skew.values.length; q++) {
    const i = skew.rows[q] as number;
    const j = skew.columns[q] as number;
    if (i < n && j < n) put(place[i] as number, place[j] as number, skew.values[q] as number);
  }
}

/** Gaussian elimination with partial pivoting, row by row: G. H. Golub, C. F. Van Loan, Matrix Computations, algorithm 3.4.1. */
class Dense {
  /** row by row; P·A = L·U once it is factored */
  readonly a: Float64Array;
  private readonly n: number;
  private readonly pivot: Int32Array;

  constructor(n: number) {
    this.n = n;
    this.a = new Float64Array(n * n);
    this.pivot = new Int32Array(n);
  }

  /** −1, or the column that has no pivot */
  factor(): number {
    const { a, n, pivot } = this;
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

  /** in place, in y from this place on */
  solve(y: Float64Array, from: number): void {
    const { a, n } = this;
    for (let k = 0; k < n; k++) this.exchange(y, from, k);
    for (let i = 0; i < n; i++) {
      let s = y[from + i] as number;
      for (let j = 0; j < i; j++) s -= (a[i * n + j] as number) * (y[from + j] as number);
      y[from + i] = s;
    }
    for (let i = n - 1; i >= 0; i--) {
      let s = y[from + i] as number;
      for (let j = i + 1; j < n; j++) s -= (a[i * n + j] as number) * (y[from + j] as number);
      y[from + i] = s / (a[i * n + i] as number);
    }
  }

  /** Uᵀ·y = b, Lᵀ·z = y, then the exchanges of rows in reverse */
  solveTransposed(y: Float64Array, from: number): void {
    const { a, n } = this;
    for (let i = 0; i < n; i++) {
      let s = y[from + i] as number;
      for (let j = 0; j < i; j++) s -= (a[j * n + i] as number) * (y[from + j] as number);
      y[from + i] = s / (a[i * n + i] as number);
    }
    for (let i = n - 1; i >= 0; i--) {
      let s = y[from + i] as number;
      for (let j = i + 1; j < n; j++) s -= (a[j * n + i] as number) * (y[from + j] as number);
      y[from + i] = s;
    }
    for (let k = n - 1; k >= 0; k--) this.exchange(y, from, k);
  }

  private exchange(y: Float64Array, from: number, k: number): void {
    const best = this.pivot[k] as number;
    const held = y[from + k] as number;
    y[from + k] = y[from + best] as number;
    y[from + best] = held;
  }
}
