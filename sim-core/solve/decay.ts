/**
 * M·x′ = −K·(x − x∞) in closed form, for a few rows and a symmetric K: x∞ and a sum of exponentials, one for each eigenvalue of K⁻¹·M, its time constant.
 * K = L·D·Lᵀ without one subtraction as in ldl.ts; the squares of the singular values of D^−½·L⁻¹·E, M = E·Eᵀ, are the time constants, found by rotating its
 * columns until they are orthogonal: M. R. Hestenes 1958, J. SIAM 6(1), one-sided Jacobi, from memory. M may be singular: what carries no charge has no part in it.
 */
import type { Pattern } from './pattern.ts';

/** With more rows than this steps in time cost less. Our choice. */
export const MOST_ROWS = 8;
/** A time constant below this is an instant [s]; far below a closing contact's. */
const INSTANT = 1e-16;
/** So early, in parts of the fastest time constant, that rounding tells more than time. */
const SOON = 0.05;
/** Columns whose cosine is below this are orthogonal. */
const ORTHOGONAL = 1e-15;
const MOST_SWEEPS = 30;

export class Decay {
  private readonly n: number;
  private readonly pattern: Pattern;
  /** n × n: couplings as they are eliminated, and by row the ties and pivots */
  private readonly coupling: Float64Array;
  private readonly tie: Float64Array;
  private readonly pivot: Float64Array;
  /** the columns of E, rotated: one for each coupling of M, n rows each */
  private readonly columns: Float64Array;
  /** where each column's charge lies: two rows, the second −1 for the reference, and its place in the pattern */
  private readonly charges: readonly { readonly i: number; readonly j: number; readonly slot: number }[];
  /** of the columns that last, their number; by place: column, and time constant [s] */
  count = 0;
  private readonly column: Int32Array;
  readonly seconds: Float64Array;
  /** by place, n + 1 rows each: what this exponential adds to x − x∞ at the beginning; the last row is the reference's, 0 */
  readonly parts: readonly Float64Array[];
  private readonly charged: Float64Array;
  private readonly rest: Float64Array;
  private readonly first: Float64Array;
  /** until then [s] the way is counted from its beginning, afterwards from its end */
  private soon = 0;

  /** mass: M by slot; what is 0 there stays 0 */
  constructor(pattern: Pattern, mass: Float64Array) {
    const { n, order, row, start } = pattern;
    this.n = n;
    this.pattern = pattern;
    this.coupling = new Float64Array(n * n);
    this.tie = new Float64Array(n);
    this.pivot = new Float64Array(n);
    const charges: { i: number; j: number; slot: number }[] = [];
    for (let k = 0; k < n; k++)
      for (let slot = start[k] as number; slot < (start[k + 1] as number); slot++) {
        const [i, j] = [order[row[slot] as number] as number, order[k] as number];
        if ((mass[slot] as number) > 0) charges.push({ i, j: i === j ? -1 : j, slot });
      }
    this.charges = charges;
    this.columns = new Float64Array(charges.length * n);
    this.column = new Int32Array(charges.length);
    this.seconds = new Float64Array(charges.length);
    this.parts = charges.map(() => new Float64Array(n + 1));
    this.charged = new Float64Array(n);
    this.rest = new Float64Array(n);
    this.first = new Float64Array(n);
  }

  /** Where it ends, K and M by slot. */
  factor(rest: Float64Array, values: Float64Array, mass: Float64Array): void {
    this.rest.set(rest.subarray(0, this.n));
    this.eliminate(values);
    this.charge(mass);
    this.rotate();
    this.count = 0;
    this.soon = Number.POSITIVE_INFINITY;
    const { n, columns } = this;
    for (let c = 0; c < this.charges.length; c++) {
      const seconds = product(columns, c * n, c * n, n);
      if (!(seconds > INSTANT) || this.count === n) continue;
      this.column[this.count] = c;
      this.seconds[this.count++] = seconds;
      this.soon = Math.min(this.soon, SOON * seconds);
    }
  }

  /** It begins here. */
  begin(x: Float64Array): void {
    this.first.set(x.subarray(0, this.n));
    const { n, rest, coupling, pivot, columns, charged } = this;
    // D^½·Lᵀ·(x − x∞)
    for (let k = 0; k < n; k++) {
      const d = pivot[k] as number;
      let s = (x[k] as number) - (rest[k] as number);
      for (let j = k + 1; j < n; j++) s -= ((coupling[k * n + j] as number) / d) * ((x[j] as number) - (rest[j] as number));
      charged[k] = s * Math.sqrt(d);
    }
    for (let m = 0; m < this.count; m++) {
      const at = (this.column[m] as number) * n;
      const part = this.parts[m] as Float64Array;
      let s = 0;
      for (let i = 0; i < n; i++) s += (columns[at + i] as number) * (charged[i] as number);
      s /= this.seconds[m] as number;
      // L⁻ᵀ·D^−½ of that much of the column
      for (let k = n - 1; k >= 0; k--) {
        const d = pivot[k] as number;
        let v = (s * (columns[at + k] as number)) / Math.sqrt(d);
        for (let j = k + 1; j < n; j++) v += ((coupling[k * n + j] as number) / d) * (part[j] as number);
        part[k] = v;
      }
    }
  }

  /** x after so long [s]; after next to nothing it is x to the last digit. */
  at(seconds: number, out: Float64Array): void {
    const { n, rest, first } = this;
    const isSoon = seconds < this.soon;
    for (let i = 0; i < n; i++) out[i] = (isSoon ? first[i] : rest[i]) as number;
    for (let m = 0; m < this.count; m++) {
      const part = this.parts[m] as Float64Array;
      const span = -seconds / (this.seconds[m] as number);
      const by = isSoon ? Math.expm1(span) : Math.exp(span);
      for (let i = 0; i < n; i++) out[i] = (out[i] as number) + by * (part[i] as number);
    }
  }

  /** After so long [s] every row is within `near` of x∞, and stays there. */
  arrival(near: number): number {
    let latest = 0;
    for (let m = 0; m < this.count; m++)
      latest = Math.max(latest, (this.seconds[m] as number) * Math.log((this.count * this.largest(m)) / near));
    return latest;
  }

  /** On its whole way row i is no further from x∞ than this. */
  furthest(i: number): number {
    let sum = 0;
    for (let m = 0; m < this.count; m++) sum += Math.abs((this.parts[m] as Float64Array)[i] as number);
    return sum;
  }

  /** On its whole way, x[a] − x[b] does not fall below this, or rise above it. */
  least(a: number, b: number): number {
    return this.extreme(a, b, -1);
  }
  most(a: number, b: number): number {
    return this.extreme(a, b, 1);
  }

  /** The longest time constant [s]; 0 if nothing lasts. */
  slowest(): number {
    let most = 0;
    for (let m = 0; m < this.count; m++) most = Math.max(most, this.seconds[m] as number);
    return most;
  }

  /** The time constant of what moves x[a] − x[b] most [s]; Infinity if nothing does. */
  pace(a: number, b: number): number {
    let most = 0;
    let seconds = Number.POSITIVE_INFINITY;
    for (let m = 0; m < this.count; m++) {
      const part = this.parts[m] as Float64Array;
      const size = Math.abs((part[a] as number) - (part[b] as number));
      if (!(size > most)) continue;
      most = size;
      seconds = this.seconds[m] as number;
    }
    return seconds;
  }

  /** Within so long [s], x[a] − x[b] leaves what lies between its two ends by no more than this; 0 if it goes only one way. */
  strays(a: number, b: number, seconds: number): number {
    let [up, down, upLeast, downLeast, upMost, downMost] = [0, 0, 0, 0, 0, 0];
    for (let m = 0; m < this.count; m++) {
      const part = this.parts[m] as Float64Array;
      const size = (part[a] as number) - (part[b] as number);
      const tau = this.seconds[m] as number;
      const left = Math.exp(-seconds / tau);
      if (size < 0) {
        up -= size * (1 - left);
        upMost -= size / tau;
        upLeast -= (size * left) / tau;
      } else {
        down += size * (1 - left);
        downMost += size / tau;
        downLeast += (size * left) / tau;
      }
    }
    return upLeast >= downMost || downLeast >= upMost ? 0 : Math.min(up, down);
  }

  private extreme(a: number, b: number, sign: number): number {
    const { rest, n } = this;
    let sum = (a === n ? 0 : (rest[a] as number)) - (b === n ? 0 : (rest[b] as number));
    for (let m = 0; m < this.count; m++) {
      const part = this.parts[m] as Float64Array;
      const size = (part[a] as number) - (part[b] as number);
      if (sign * size > 0) sum += size;
    }
    return sum;
  }

  private largest(m: number): number {
    const part = this.parts[m] as Float64Array;
    let most = 0;
    for (let i = 0; i < this.n; i++) most = Math.max(most, Math.abs(part[i] as number));
    return most;
  }

  private eliminate(values: Float64Array): void {
    const { n, coupling, tie, pivot } = this;
    const { order, row, start } = this.pattern;
    coupling.fill(0);
    for (let k = 0; k < n; k++)
      for (let slot = start[k] as number; slot < (start[k + 1] as number); slot++) {
        const [i, j] = [order[row[slot] as number] as number, order[k] as number];
        const g = values[slot] as number;
        if (i === j) tie[i] = g;
        else {
          coupling[i * n + j] = g;
          coupling[j * n + i] = g;
        }
      }
    for (let k = 0; k < n; k++) {
      let d = tie[k] as number;
      for (let j = k + 1; j < n; j++) d += coupling[k * n + j] as number;
      pivot[k] = d;
      for (let i = k + 1; i < n; i++) {
        const share = (coupling[k * n + i] as number) / d;
        if (share === 0) continue;
        tie[i] = (tie[i] as number) + share * (tie[k] as number);
        for (let j = k + 1; j < n; j++)
          if (j !== i) coupling[i * n + j] = (coupling[i * n + j] as number) + share * (coupling[k * n + j] as number);
      }
    }
  }

  /** D^−½·L⁻¹·E */
  private charge(mass: Float64Array): void {
    const { n, coupling, pivot, columns, charges } = this;
    columns.fill(0);
    for (let c = 0; c < charges.length; c++) {
      const { i, j, slot } = charges[c] as (typeof charges)[number];
      const root = Math.sqrt(mass[slot] as number);
      columns[c * n + i] = root;
      if (j >= 0) columns[c * n + j] = -root;
      for (let k = 0; k < n; k++) {
        const at = columns[c * n + k] as number;
        if (at === 0) continue;
        const d = pivot[k] as number;
        for (let r = k + 1; r < n; r++) columns[c * n + r] = (columns[c * n + r] as number) + ((coupling[k * n + r] as number) / d) * at;
        columns[c * n + k] = at / Math.sqrt(d);
      }
    }
  }

  private rotate(): void {
    const { n, columns, charges } = this;
    for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
      let turned = false;
      for (let p = 0; p < charges.length; p++)
        for (let q = p + 1; q < charges.length; q++) turned = turn(columns, p * n, q * n, n) || turned;
      if (!turned) return;
    }
  }
}

function product(columns: Float64Array, p: number, q: number, n: number): number {
  let s = 0;
  for (let i = 0; i < n; i++) s += (columns[p + i] as number) * (columns[q + i] as number);
  return s;
}

/** Makes two columns orthogonal; false if they are already. */
function turn(columns: Float64Array, p: number, q: number, n: number): boolean {
  const a = product(columns, p, p, n);
  const b = product(columns, q, q, n);
  const c = product(columns, p, q, n);
  if (!(Math.abs(c) > ORTHOGONAL * Math.sqrt(a * b))) return false;
  const zeta = (b - a) / (2 * c);
  const t = (zeta < 0 ? -1 : 1) / (Math.abs(zeta) + Math.sqrt(1 + zeta * zeta));
  const cosine = 1 / Math.sqrt(1 + t * t);
  const sine = cosine * t;
  for (let i = 0; i < n; i++) {
    const u = columns[p + i] as number;
    const v = columns[q + i] as number;
    columns[p + i] = cosine * u - sine * v;
    columns[q + i] = sine * u + cosine * v;
  }
  return true;
}
