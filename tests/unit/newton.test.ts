/** What Newton's method answers where there is nothing to be found: which row is the worst, never a number that is none. */
import { expect, test } from 'vitest';
import type { Equations } from '../../sim-core/solve/equations.ts';
import { makeNewton, newton } from '../../sim-core/solve/newton.ts';
import { makePattern } from '../../sim-core/solve/pattern.ts';

/** One unknown with a current of so many amperes, and its slope [S]. */
const oneNode = (amps: (x: number) => number, siemens = 1, skew?: Equations['skew']): Equations => ({
  n: 1,
  pattern: makePattern(1, []),
  ...(skew ? { skew } : {}),
  addMass() {},
  massTimes() {},
  evaluate(x, residual, magnitude, jacobian) {
    residual[0] = amps(x[0]!);
    magnitude[0] = 1;
    if (jacobian) jacobian[0] = siemens;
  },
});
const noSkew = { rows: new Int32Array(0), columns: new Int32Array(0), values: new Float64Array(0) };

test.each([
  ['a symmetric system', undefined],
  ['a system that is not', noSkew],
])('%s: voltages that are no numbers are no answer', (_, skew) => {
  const solved = newton(makeNewton(oneNode((x) => x - 1, 1, skew)), Float64Array.of(Number.NaN, 0));
  expect(solved).toMatchObject({ ok: false, worstRow: 0 });
  expect(newton(makeNewton(oneNode((x) => x - 1, 1, skew)), Float64Array.of(7, 0)).ok).toBe(true);
});

test('a current that no voltage brings to nothing is told with what is left of it', () => {
  const x = Float64Array.of(0, 0);
  expect(newton(makeNewton(oneNode(() => -2)), x)).toEqual({ ok: false, worstRow: 0, residual: -2 });
  expect(x[0]).toBeGreaterThan(100);
});
