/** The reference: the same equations by Newton with dense LU from a general library (ml-matrix), with the same convergence test and line search. */
import { LuDecomposition, Matrix } from 'ml-matrix';
import { type Equations, RELATIVE_RESIDUAL, RESIDUAL_FLOOR } from '../../sim-core/solve/equations.ts';

/** Solves from x, in place; returns the iterations. */
export function denseNewton(equations: Equations, x: Float64Array): number {
  const { n, pattern } = equations;
  const residual = new Float64Array(n + 1);
  const magnitude = new Float64Array(n + 1);
  const values = new Float64Array(pattern.row.length + 1);
  const trial = new Float64Array(n + 1);
  equations.evaluate(x, residual, magnitude, values);
  for (let iteration = 0; iteration < 200; iteration++) {
    if (residual.subarray(0, n).every((f, i) => Math.abs(f) <= RELATIVE_RESIDUAL * (magnitude[i] ?? 0) + RESIDUAL_FLOOR)) return iteration;
    const dense = Matrix.zeros(n, n);
    for (let k = 0; k < n; k++)
      for (let p = pattern.start[k] ?? 0; p < (pattern.start[k + 1] ?? 0); p++) {
        const i = pattern.order[pattern.row[p] ?? 0] ?? 0;
        const j = pattern.order[k] ?? 0;
        const g = values[p] ?? 0;
        dense.set(i, i, dense.get(i, i) + g);
        if (i === j) continue;
        dense.set(j, j, dense.get(j, j) + g);
        dense.set(i, j, -g);
        dense.set(j, i, -g);
      }
    const step = new LuDecomposition(dense).solve(Matrix.columnVector([...residual.subarray(0, n)])).to1DArray();
    const slope = () => -step.reduce((s, d, i) => s + d * (residual[i] ?? 0), 0);
    const slope0 = slope();
    let reach = Math.min(1, 10 / Math.max(...step.map(Math.abs)));
    for (let tries = 0; ; tries++) {
      for (let i = 0; i < n; i++) trial[i] = (x[i] ?? 0) - reach * (step[i] ?? 0);
      equations.evaluate(trial, residual, magnitude, values);
      const now = slope();
      if ((Number.isFinite(now) && now <= -0.5 * slope0) || tries === 40) break;
      const secant = Number.isFinite(now) ? (reach * slope0) / (slope0 - now) : 0;
      reach = Math.min(Math.max(secant, 0.05 * reach), 0.8 * reach);
    }
    x.set(trial);
  }
  throw new Error('the dense reference did not converge');
}
