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
  return w.equations.skew ? easedNewton(w, x) : descend(w, x, CONVEX);
}

/** How far to go along a step: something is measured where it begins and where it ends. */
interface Search {
  measure(w: Newton): number;
  /** the reach to try instead, or this one if it was not too far */
  shorten(reach: number, first: number, now: number): number;
  /** it goes no further; still: because nothing can be moved any more. Is that the answer? */
  accepts(w: Newton, still: boolean): boolean;
}

/** φ′ along d = −J⁻¹F, −F·J⁻¹F < 0 at the beginning, may turn up by half of that at most. */
const CONVEX: Search = {
  measure: ({ residual, step, equations }) => -dot(residual, step, equations.n),
  shorten(reach, first, now) {
    const isNumber = Number.isFinite(now);
    if (isNumber && now <= -0.5 * first) return reach;
    // secant on the slope between here, where it overshoots, and the beginning, where it descends
    const secant = isNumber ? (reach * first) / (first - now) : 0;
    return Math.min(Math.max(secant, 0.05 * reach), 0.8 * reach);
  },
  accepts: (w, still) => still && Number.isFinite(CONVEX.measure(w)),
};

/** Without symmetry the residual's size falls, by a tenth of what a full step promises; of rows that are satisfied what is left is rounding. */
const DAMPED: Search = {
  measure({ residual, magnitude, equations: { n } }) {
    let s = 0;
    for (let i = 0; i < n; i++) {
      const size = Math.abs(residual[i] as number);
      if (!(size <= RELATIVE_RESIDUAL * (magnitude[i] as number) + RESIDUAL_FLOOR)) s += size * size;
    }
    return Math.sqrt(s);
  },
  shorten: (reach, first, now) => (now <= (1 - 0.1 * reach) * first ? reach : 0.5 * reach),
  accepts: ({ residual, magnitude, equations }) => satisfied(residual, magnitude, equations.n, LOOSELY),
};

function descend(w: Newton, x: Float64Array, search: Search): Converged {
  const { equations, residual, magnitude, jacobian, step, trial, linear } = w;
  const { n } = equations;
  equations.evaluate(x, residual, magnitude, jacobian);
  let still = false;
  for (let iterations = 0; ; iterations++) {
    if (satisfied(residual, magnitude, n)) return { ok: true, iterations };
    if (still || iterations === MOST_ITERATIONS) return search.accepts(w, still) ? { ok: true, iterations } : failedAt(w);
    const bad = linear.refactor(jacobian);
    if (bad >= 0) return { ok: false, worstRow: bad, residual: residual[bad] as number };
    linear.solve(residual, step);
    const first = search.measure(w);
    let reach = Math.min(1, LARGEST_MOVE / largest(step, n));
    for (let tries = 0; ; tries++) {
      for (let i = 0; i < n; i++) trial[i] = (x[i] as number) - reach * (step[i] as number);
      equations.evaluate(trial, residual, magnitude, jacobian);
      const next = search.shorten(reach, first, search.measure(w));
      still = moved(x, trial, n) < SMALLEST_MOVE;
      if (next === reach || still || tries === MOST_TRIES) break;
      reach = next;
    }
    for (let i = 0; i < n; i++) x[i] = trial[i] as number;
  }
}

/** Steps in which an eased problem is brought to itself when it can't be solved at once. */
const EASINGS = 20;

/** Where damping alone fails, from the easy problem to the hard one in steps (source stepping). */
function easedNewton(w: Newton, x: Float64Array): Converged {
  const { equations } = w;
  const start = x.slice();
  const straight = descend(w, x, DAMPED);
  if (straight.ok || !equations.ease) return straight;
  x.fill(0);
  let last: Converged = straight;
  for (let k = 1; k <= EASINGS; k++) {
    equations.ease(k / EASINGS);
    last = descend(w, x, DAMPED);
  }
  equations.ease(1);
  if (!last.ok) x.set(start);
  return last;
}

/** Where rounding stops a damped search, so many times the usual residual is still accepted. */
const LOOSELY = 1e3;

function satisfied(residual: Float64Array, magnitude: Float64Array, n: number, loosely = 1): boolean {
  for (let i = 0; i < n; i++)
    if (!(Math.abs(residual[i] as number) <= loosely * (RELATIVE_RESIDUAL * (magnitude[i] as number) + RESIDUAL_FLOOR))) return false;
  return true;
}

/** At the row that is furthest from being satisfied. */
function failedAt({ residual, magnitude, equations }: Newton): Converged {
  let worstRow = 0;
  let most = -1;
  for (let i = 0; i < equations.n; i++) {
    const excess = Math.abs(residual[i] as number) / (RELATIVE_RESIDUAL * (magnitude[i] as number) + RESIDUAL_FLOOR);
    if (!(excess <= most)) {
      most = excess;
      worstRow = i;
    }
  }
  return { ok: false, worstRow, residual: residual[worstRow] as number };
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
