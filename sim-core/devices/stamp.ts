/** How one two-terminal element enters the equations: its current into two rows, its slope into one place of the matrix. */
import { type Pattern, slotOf } from '../solve/pattern.ts';

/** Where the elements of one kind lie: the two nodes of each, and its place in the matrix. Node n is ground. */
export interface ElementTable {
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly slots: Int32Array;
}

/** An element's place is that of the coupling between its nodes, or of its node's tie to ground; past the last is what joins nothing. */
export function tableOf(ends: readonly (readonly [a: number, b: number])[], pattern: Pattern): ElementTable {
  const { n } = pattern;
  const place = (a: number, b: number) => (a === b ? pattern.row.length : slotOf(pattern, a === n ? b : a, b === n ? a : b));
  return {
    a: Int32Array.from(ends, ([a]) => a),
    b: Int32Array.from(ends, ([, b]) => b),
    slots: Int32Array.from(ends, ([a, b]) => place(a, b)),
  };
}

/** A current that flows from node a to node b, into both rows. */
export function add(a: number, b: number, i: number, residual: Float64Array, magnitude: Float64Array): void {
  const size = Math.abs(i);
  residual[a] = (residual[a] as number) + i;
  residual[b] = (residual[b] as number) - i;
  magnitude[a] = (magnitude[a] as number) + size;
  magnitude[b] = (magnitude[b] as number) + size;
}

/** Rounding of a voltage, measured against the convergence test of one in 10⁹. */
const ROUNDING = (4 * Number.EPSILON) / 1e-9;

/** Volts are known to their last digit; what that digit is worth in amperes through something stiff (g, in S) counts as having been added up. */
export function addRounding(a: number, b: number, g: number, x: Float64Array, magnitude: Float64Array): void {
  magnitude[a] = (magnitude[a] as number) + ROUNDING * g * Math.abs(x[a] as number);
  magnitude[b] = (magnitude[b] as number) + ROUNDING * g * Math.abs(x[b] as number);
}

/** Its slope, into the place of element k. */
export function addSlope(slots: Int32Array, k: number, g: number, values: Float64Array): void {
  const slot = slots[k] as number;
  values[slot] = (values[slot] as number) + g;
}
