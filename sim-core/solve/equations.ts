/** What the solver asks of a system of equations: F(x) = 0 with a symmetric positive definite Jacobian, and M·x′ = −F(x) with M ≥ 0. */
import type { Pattern } from './pattern.ts';

export interface Equations {
  readonly n: number;
  readonly pattern: Pattern;
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
