/**
 * Newton's method for F(x) = 0 where F is the gradient of a convex function (for circuits of two-terminal monotone elements: the co-content,
 * Millar 1951, Phil. Mag. 42): a step is taken as far as the directional derivative along it keeps falling, which makes it safe from any start.
 */
import { type Equations, RELATIVE_RESIDUAL, RESIDUAL_FLOOR } from './equations.ts';
import { type Linear, makeLinear } from './linear.ts';

export interface Newton {
  readonly equations: Equations;
  readonly linear: Linear;
  /** sizes n + 1 */
  readonly residual: Float64Array;
  readonly magnitude: Float64Array;
  readonly step: Float64Array;
  readonly trial: Float64Array;
  /** by slot, one more for what belongs to the held row */
  readonly jacobian: Float64Array;
}

export type Converged =
  | { readonly ok: true; readonly iterations: number }
  | { readonly ok: false; readonly worstRow: number; readonly residual: number };

/** Workspace for one pattern; made once per circuit. */
export function makeNewton(equations: Equations): Newton {
  const { n, pattern } = equations;
  const array = () => new Float64Array(n + 1);
  return {
    equations,
    linear: makeLinear(equations),
    residual: array(),
    magnitude: array(),
    step: array(),
    trial: array(),
    jacobian: new Float64Array(pattern.row.length + 1),
  };
}

const MOST_ITERATIONS = 200;
const MOST_TRIES = 40;
/** No unknown is moved further than this in one iteration: from far out, a step of a flat function points anywhere. */
const LARGEST_MOVE = 10;
/** A move of every unknown below this many units in the last place of 1 V cannot be improved upon. */
const SMALLEST_MOVE = 4 * Number.EPSILON;

/**
 * Solves from x, in place. The answer's residual is at most RELATIVE_RESIDUAL of the row's magnitude; or, where very stiff rows do not allow that in
 * floating point, no move of any unknown by more than its last digits improves it.
 */
export function newton(w: Newton, x: Float64Array): Converged {
  return w.equations.skew ? easedNewton(w, x) : convexNewton(w, x);
}

function convexNewton(w: Newton, x: Float64Array): Converged {
  const { equations, residual, magnitude, jacobian, step, trial, linear } = w;
  const { n } = equations;
  equations.evaluate(x, residual, magnitude, jacobian);
  for (let iterations = 0; iterations < MOST_ITERATIONS; iterations++) {
    if (satisfied(residual, magnitude, n)) return { ok: true, iterations };
    const bad = linear.refactor(jacobian);
    if (bad >= 0) return { ok: false, worstRow: bad, residual: residual[bad] as number };
    linear.solve(residual, step);
    // φ′(0) = −F·J⁻¹F < 0 along d = −J⁻¹F
    const slope0 = -dot(residual, step, n);
    let reach = Math.min(1, LARGEST_MOVE / largest(step, n));
    for (let tries = 0; ; tries++) {
      for (let i = 0; i < n; i++) trial[i] = (x[i] as number) - reach * (step[i] as number);
      equations.evaluate(trial, residual, magnitude, jacobian);
      const slope = -dot(residual, step, n);
      if ((Number.isFinite(slope) && slope <= -0.5 * slope0) || tries === MOST_TRIES) break;
      // secant on the slope between here, where it overshoots, and the beginning, where it descends
      const secant = Number.isFinite(slope) ? (reach * slope0) / (slope0 - slope) : 0;
      reach = Math.min(Math.max(secant, 0.05 * reach), 0.8 * reach);
    }
    const still = moved(x, trial, n) < SMALLEST_MOVE;
    for (let i = 0; i < n; i++) x[i] = trial[i] as number;
    if (still) return { ok: true, iterations };
  }
  return { ok: false, ...worst(residual, magnitude, n) };
}

/** Steps in which an eased problem is brought to itself when it can't be solved at once. */
const EASINGS = 20;

/** Without symmetry: damped on the size of the residual; where that fails, from the easy problem to the hard one in steps (source stepping). */
function easedNewton(w: Newton, x: Float64Array): Converged {
  const { equations } = w;
  const start = x.slice();
  const straight = dampedNewton(w, x);
  if (straight.ok || !equations.ease) return straight;
  x.fill(0);
  let last: Converged = straight;
  for (let k = 1; k <= EASINGS; k++) {
    equations.ease(k / EASINGS);
    last = dampedNewton(w, x);
  }
  equations.ease(1);
  if (!last.ok) x.set(start);
  return last;
}

function dampedNewton(w: Newton, x: Float64Array): Converged {
  const { equations, residual, magnitude, jacobian, step, trial, linear } = w;
  const { n } = equations;
  equations.evaluate(x, residual, magnitude, jacobian);
  for (let iterations = 0; iterations < MOST_ITERATIONS; iterations++) {
    if (satisfied(residual, magnitude, n)) return { ok: true, iterations };
    const bad = linear.refactor(jacobian);
    if (bad >= 0) return { ok: false, worstRow: bad, residual: residual[bad] as number };
    linear.solve(residual, step);
    const size = Math.sqrt(dot(residual, residual, n));
    let reach = Math.min(1, LARGEST_MOVE / largest(step, n));
    for (let tries = 0; ; tries++) {
      for (let i = 0; i < n; i++) trial[i] = (x[i] as number) - reach * (step[i] as number);
      equations.evaluate(trial, residual, magnitude, jacobian);
      const now = Math.sqrt(dot(residual, residual, n));
      if (now <= (1 - 0.1 * reach) * size || tries === MOST_TRIES || moved(x, trial, n) < SMALLEST_MOVE) break;
      reach *= 0.5;
    }
    const still = moved(x, trial, n) < SMALLEST_MOVE;
    for (let i = 0; i < n; i++) x[i] = trial[i] as number;
    if (still) break;
  }
  return satisfiedLoosely(residual, magnitude, n)
    ? { ok: true, iterations: MOST_ITERATIONS }
    : { ok: false, ...worst(residual, magnitude, n) };
}

/** Where rounding stops the search a thousand times the usual residual is still accepted. */
function satisfiedLoosely(residual: Float64Array, magnitude: Float64Array, n: number): boolean {
  for (let i = 0; i < n; i++)
    if (!(Math.abs(residual[i] as number) <= 1e3 * (RELATIVE_RESIDUAL * (magnitude[i] as number) + RESIDUAL_FLOOR))) return false;
  return true;
}

function satisfied(residual: Float64Array, magnitude: Float64Array, n: number): boolean {
  for (let i = 0; i < n; i++)
    if (!(Math.abs(residual[i] as number) <= RELATIVE_RESIDUAL * (magnitude[i] as number) + RESIDUAL_FLOOR)) return false;
  return true;
}

function worst(residual: Float64Array, magnitude: Float64Array, n: number): { worstRow: number; residual: number } {
  let worstRow = 0;
  let most = -1;
  for (let i = 0; i < n; i++) {
    const excess = Math.abs(residual[i] as number) / (RELATIVE_RESIDUAL * (magnitude[i] as number) + RESIDUAL_FLOOR);
    if (!(excess <= most)) {
      most = excess;
      worstRow = i;
    }
  }
  return { worstRow, residual: residual[worstRow] as number };
}

/** Largest move of an unknown, in parts of 1 V or of itself. */
function moved(from: Float64Array, to: Float64Array, n: number): number {
  let most = 0;
  for (let i = 0; i < n; i++) {
    const at = to[i] as number;
    const by = Math.abs(at - (from[i] as number));
    if (by > most * (1 + Math.abs(at))) most = by / (1 + Math.abs(at));
  }
  return most;
}

function dot(a: Float64Array, b: Float64Array, n: number): number {
  let s = 0;
  for (let i = 0; i < n; i++) s += (a[i] as number) * (b[i] as number);
  return s;
}

function largest(a: Float64Array, n: number): number {
  let most = 0;
  for (let i = 0; i < n; i++) {
    const size = Math.abs(a[i] as number);
    if (!(size <= most)) most = size;
  }
  return most;
}
