/**
 * What the solver asks of a system of equations: F(x) = 0 with a symmetric positive definite Jacobian, and M·x′ = −F(x) with M ≥ 0.
 * Equations with `skew` have a Jacobian of two parts, the second without symmetry; they are solved by other means, without the guarantee.
 */
import type { Pattern } from './pattern.ts';

/** Entries of a Jacobian that has no symmetry: row, column, value. */
export interface Skew {
  readonly rows: Int32Array;
  readonly columns: Int32Array;
  readonly values: Float64Array;
}

export interface Equations {
  readonly n: number;
  readonly pattern: Pattern;
  /** the part of the Jacobian without symmetry, written by `evaluate` whenever it fills the other; rows and columns from n on are held */
  readonly skew?: Skew;
  /** only with `skew`: makes the problem easier; 1 is the problem itself, 0 has the solution 0 */
  ease?(share: number): void;
  /**
   * F at x, and beside it for each row the sum of the magnitudes it was added up from.
   * jacobian: filled by slot if given. Arrays have n + 1 places; the last belongs to the row that is held at zero.
   */
  evaluate(x: Float64Array, residual: Float64Array, magnitude: Float64Array, jacobian: Float64Array | null): void;
  /** values ← values + scale·M, by slot */
  addMass(values: Float64Array, scale: number): void;
  /** out ← M·x */
  massTimes(x: Float64Array, out: Float64Array): void;
}

/** A row is satisfied when |F| is below this part of what flows through it … */
export const RELATIVE_RESIDUAL = 1e-9;
/** … or below this floor [A]; SOURCES.md, convergence. */
export const RESIDUAL_FLOOR = 1e-13;
