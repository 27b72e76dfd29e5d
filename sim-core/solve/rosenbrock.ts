/**
 * M·x′ = −F(x) in time, with error control: the linearly implicit method RODAS, order 4(3), six stages, stiffly accurate, fit for M singular.
 * Coefficients: E. Hairer, G. Wanner, Solving Ordinary Differential Equations II, 2nd ed. 1996, ch. IV.7 and VI.4; order 4 is tested.
 */
import type { Equations } from './equations.ts';
import type { Linear } from './linear.ts';

const GAMMA = 0.25;
const A: readonly (readonly number[])[] = [
  [],
  [1.544],
  [0.9466785280815826, 0.2557011698983284],
  [3.314825187068521, 2.896124015972201, 0.9986419139977817],
  [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895],
  [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895, 1],
];
const C: readonly (readonly number[])[] = [
  [],
  [-5.6688],
  [-2.430093356833875, -0.2063599157091915],
  [-0.1073529058151375, -9.594562251023355, -20.47028614809616],
  [7.496443313967647, -10.24680431464352, -33.99990352819905, 11.7089089320616],
  [8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054],
];
const STAGES = 6;

export interface Rosenbrock {
  readonly equations: Equations;
  readonly linear: Linear;
  /** sizes n + 1: increments of the stages, and workspace */
  readonly u: readonly Float64Array[];
  readonly at: Float64Array;
  readonly residual: Float64Array;
  readonly magnitude: Float64Array;
  readonly mix: Float64Array;
  readonly massed: Float64Array;
  /** by slot: F′ at the step's beginning, and F′ + M/(hγ) */
  readonly jacobian: Float64Array;
  readonly matrix: Float64Array;
}

/** Workspace for one pattern; shares the linear solver with whoever gave it. */
export function makeRosenbrock(equations: Equations, linear: Linear): Rosenbrock {
  const { n, pattern } = equations;
  const array = () => new Float64Array(n + 1);
  const values = () => new Float64Array(pattern.row.length + 1);
  return {
    equations,
    linear,
    u: Array.from({ length: STAGES }, array),
    at: array(),
    residual: array(),
    magnitude: array(),
    mix: array(),
    massed: array(),
    jacobian: values(),
    matrix: values(),
  };
}

/** Takes F′ at x; needed once before any number of tries from there. */
export function linearise(w: Rosenbrock, x: Float64Array): void {
  w.equations.evaluate(x, w.residual, w.magnitude, w.jacobian);
}

/**
 * One try of size h from x into `out`, after `linearise(w, x)`.
 * Returns the largest estimated error over its tolerance (relative + absolute), so that a value ≤ 1 is accepted.
 */
export function tryStep(w: Rosenbrock, x: Float64Array, h: number, relative: number, absolute: number, out: Float64Array): number {
  const { equations, u, at, residual, magnitude, mix, massed, matrix } = w;
  const { n } = equations;
  matrix.set(w.jacobian);
  equations.addMass(matrix, 1 / (h * GAMMA));
  if (w.linear.refactor(matrix) >= 0) return Number.POSITIVE_INFINITY;
  for (let s = 0; s < STAGES; s++) {
    const a = A[s] as readonly number[];
    const c = C[s] as readonly number[];
    const us = u[s] as Float64Array;
    at.set(x);
    mix.fill(0);
    for (let j = 0; j < s; j++) {
      const uj = u[j] as Float64Array;
      const aj = a[j] as number;
      const cj = (c[j] as number) / h;
      for (let i = 0; i < n; i++) {
        at[i] = (at[i] as number) + aj * (uj[i] as number);
        mix[i] = (mix[i] as number) + cj * (uj[i] as number);
      }
    }
    equations.evaluate(at, residual, magnitude, null);
    equations.massTimes(mix, massed);
    for (let i = 0; i < n; i++) residual[i] = (massed[i] as number) - (residual[i] as number);
    w.linear.solve(residual, us);
  }
  const last = u[STAGES - 1] as Float64Array;
  let error = 0;
  for (let i = 0; i < n; i++) {
    const to = (at[i] as number) + (last[i] as number);
    out[i] = to;
    const allowed = absolute + relative * Math.max(Math.abs(x[i] as number), Math.abs(to));
    error = Math.max(error, Math.abs(last[i] as number) / allowed);
  }
  return Number.isFinite(error) ? error : Number.POSITIVE_INFINITY;
}

/** Size of the next try after one of size h with this error; order 4, kept within a factor of 0.2 to 6. */
export const nextSize = (h: number, error: number): number => h * Math.min(6, Math.max(0.2, 0.9 * error ** -0.25));
