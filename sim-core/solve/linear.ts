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
  const { n, border, order, place } = factors.pattern;
  const inside = [...skew.rows, ...skew.columns].find((i) => i < n && (place[i] as number) < border);
  if (inside !== undefined) throw new Error(`row ${inside} has no symmetry and must be one of the pattern's last`);
  const dense = new Dense(n - border);
  const straight = (y: Float64Array) => dense.solve(y, border);
  const transposed = (y: Float64Array) => dense.solveTransposed(y, border);
  return {
    refactor(values) {
      const bad = refactor(factors, values);
      if (bad >= 0) return bad;
      fillBorder(factors, skew, dense);
      const column = dense.factor();
      return column < 0 ? -1 : (order[border + column] as number);
    },
    solve: (b, x) => solve(factors, b, x, straight),
    solveTransposed: (b, x) => solve(factors, b, x, transposed),
  };
}

/** The border: couplings between its rows and ties as elimination left them; `skew` adds what has no mirror image. */
function fillBorder({ pattern, start, row, value, tie }: Factors, skew: Skew, dense: Dense): void {
  const { n, border, place } = pattern;
  dense.clear();
  for (let k = border; k < n; k++) {
    dense.tie(k - border, tie[k] as number);
    for (let p = start[k] as number; p < (start[k + 1] as number); p++)
      dense.couple(k - border, (row[p] as number) - border, value[p] as number);
  }
  for (let q = 0; q < skew.values.length; q++) {
    const i = skew.rows[q] as number;
    const j = skew.columns[q] as number;
    if (i < n && j < n) dense.add((place[i] as number) - border, (place[j] as number) - border, skew.values[q] as number);
  }
}

/** A pivot on the diagonal is taken unless another of its column is so many times larger. */
const LARGER = 10;

/**
 * Gaussian elimination row by row: G. H. Golub, C. F. Van Loan, Matrix Computations, algorithm 3.4.1, with the diagonal's entries preferred as pivots. They
 * are what the rest of their row leaves of its sum, which is eliminated as a column of its own: so a group of rows that are tied to the reference by 1e-12
 * and to each other by 1e8 keeps the tie, as in ldl.ts.
 */
class Dense {
  private readonly n: number;
  /** row by row; P·A = L·U once it is factored */
  private readonly a: Float64Array;
  /** by row: of what it still has */
  private readonly sum: Float64Array;
  /** by row: where its diagonal's entry is, or −1 once that column is eliminated */
  private readonly own: Int32Array;
  private readonly pivot: Int32Array;

  constructor(n: number) {
    this.n = n;
    this.a = new Float64Array(n * n);
    this.sum = new Float64Array(n);
    this.own = new Int32Array(n);
    this.pivot = new Int32Array(n);
  }

  clear(): void {
    this.a.fill(0);
    this.sum.fill(0);
  }

  tie(i: number, g: number): void {
    this.sum[i] = (this.sum[i] as number) + g;
  }

  couple(i: number, j: number, g: number): void {
    const { a, n } = this;
    a[i * n + j] = (a[i * n + j] as number) - g;
    a[j * n + i] = (a[j * n + i] as number) - g;
  }

  add(i: number, j: number, g: number): void {
    const { a, n, sum } = this;
    sum[i] = (sum[i] as number) + g;
    if (i !== j) a[i * n + j] = (a[i * n + j] as number) + g;
  }

  /** −1, or the column that has no pivot */
  factor(): number {
    const { a, n, sum, own } = this;
    for (let i = 0; i < n; i++) {
      own[i] = i;
      this.derive(i, 0);
    }
    for (let k = 0; k < n; k++) {
      this.exchangeRows(k, this.choose(k));
      const d = a[k * n + k] as number;
      if (!(Math.abs(d) > 0)) return k;
      for (let i = k + 1; i < n; i++) {
        const l = (a[i * n + k] as number) / d;
        a[i * n + k] = l;
        if (own[i] === k) own[i] = -1;
        if (l === 0) continue;
        for (let j = k + 1; j < n; j++) a[i * n + j] = (a[i * n + j] as number) - l * (a[k * n + j] as number);
        sum[i] = (sum[i] as number) - l * (sum[k] as number);
        if ((own[i] as number) > k) this.derive(i, k + 1);
      }
    }
    return -1;
  }

  /** The diagonal's entry of a row, from what else it has from this column on. */
  private derive(i: number, from: number): void {
    const { a, n } = this;
    const own = this.own[i] as number;
    let rest = this.sum[i] as number;
    for (let j = from; j < n; j++) if (j !== own) rest -= a[i * n + j] as number;
    a[i * n + own] = rest;
  }

  /** the row whose entry in this column becomes the pivot */
  private choose(k: number): number {
    const { a, n, own } = this;
    let best = k;
    let diagonal = k;
    for (let i = k; i < n; i++) {
      if (Math.abs(a[i * n + k] as number) > Math.abs(a[best * n + k] as number)) best = i;
      if (own[i] === k) diagonal = i;
    }
    return Math.abs(a[best * n + k] as number) > LARGER * Math.abs(a[diagonal * n + k] as number) ? best : diagonal;
  }

  private exchangeRows(k: number, other: number): void {
    const { a, n, sum, own } = this;
    this.pivot[k] = other;
    if (other === k) return;
    for (let j = 0; j < n; j++) swap(a, k * n + j, other * n + j);
    swap(sum, k, other);
    swap(own, k, other);
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
    swap(y, from + k, from + (this.pivot[k] as number));
  }
}

function swap(list: Float64Array | Int32Array, i: number, j: number): void {
  const held = list[i] as number;
  list[i] = list[j] as number;
  list[j] = held;
}
