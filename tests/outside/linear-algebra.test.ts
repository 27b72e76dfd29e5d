/** The sparse solver against a general library for dense linear algebra (ml-matrix), and the time stepper against its own order and a general ODE library (odex). */
import fc from 'fast-check';
import { inverse, LuDecomposition, Matrix } from 'ml-matrix';
import { Solver } from 'odex';
import { describe, expect, test } from 'vitest';
import { THERMAL_VOLTAGE } from '../../sim-core/devices/device-models.ts';
import { GROUND, Network } from '../../sim-core/devices/network.ts';
import { analyse, refactor, solve } from '../../sim-core/solve/ldl.ts';
import { makeLinear } from '../../sim-core/solve/linear.ts';
import { makeNewton, newton } from '../../sim-core/solve/newton.ts';
import { makePattern, slotOf } from '../../sim-core/solve/pattern.ts';
import { linearise, makeRosenbrock, nextSize, tryStep } from '../../sim-core/solve/rosenbrock.ts';

/** A random connected network of conductances: each node is tied to an earlier one, then some more. */
const network = fc.integer({ min: 1, max: 60 }).chain((n) =>
  fc.record({
    n: fc.constant(n),
    tree: fc.array(fc.tuple(fc.nat(), fc.double({ min: 1e-7, max: 20, noNaN: true })), { minLength: n, maxLength: n }),
    more: fc.array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1), fc.double({ min: 1e-7, max: 20, noNaN: true })), { maxLength: 2 * n }),
    currents: fc.array(fc.double({ min: -0.1, max: 0.1, noNaN: true }), { minLength: n, maxLength: n }),
  }),
);

describe('LDLᵀ on a pattern analysed once', () => {
  test('solves a hundred random resistor networks as dense LU does, to 1e-9', () => {
    fc.assert(
      fc.property(network, ({ n, tree, more, currents }) => {
        const edges = [...tree.map(([to, g], i) => [i, i === 0 ? -1 : to % i, g] as const), ...more];
        const pattern = makePattern(
          n,
          edges.filter(([, j]) => j >= 0).map(([i, j]) => [i, j] as const),
        );
        const values = new Float64Array(pattern.row.length + 1);
        const dense = Matrix.zeros(n, n);
        const put = (i: number, j: number, g: number) => dense.set(i, j, dense.get(i, j) + g);
        for (const [i, j, g] of edges) {
          if (i === j) continue;
          values[slotOf(pattern, i, j < 0 ? i : j)]! += g;
          put(i, i, g);
          if (j < 0) continue;
          put(j, j, g);
          put(i, j, -g);
          put(j, i, -g);
        }
        const factors = analyse(pattern);
        expect(refactor(factors, values)).toBe(-1);
        const x = new Float64Array(n);
        solve(factors, Float64Array.from(currents), x);
        const exact = new LuDecomposition(dense).solve(Matrix.columnVector(currents)).to1DArray();
        // the residual is the fair measure: the two answers differ by rounding times the matrix's condition
        const residual = dense.mmul(Matrix.columnVector([...x])).to1DArray();
        const through = Math.max(...edges.map(([a, b, g]) => g * (Math.abs(x[a]!) + Math.abs(x[b] ?? 0))));
        for (let i = 0; i < n; i++) expect(Math.abs(residual[i]! - currents[i]!)).toBeLessThan(1e-12 * through + 1e-15);
        const largest = Math.max(...exact.map(Math.abs));
        if (conditionIsMild(dense)) for (let i = 0; i < n; i++) expect(Math.abs(x[i]! - exact[i]!)).toBeLessThan(1e-9 * largest + 1e-15);
      }),
      { numRuns: 100 },
    );
  });

  test('a matrix that is not positive definite is refused at its row', () => {
    const pattern = makePattern(2, [[0, 1]]);
    const values = new Float64Array(4);
    values[slotOf(pattern, 0, 1)] = 1;
    expect(refactor(analyse(pattern), values)).toBeGreaterThanOrEqual(0);
  });
});

describe('a border of rows without symmetry', () => {
  const bordered = fc.record({
    net: network,
    // couplings one way, between any two rows, which are the border
    skew: fc.array(fc.tuple(fc.nat(), fc.nat(), fc.double({ min: -0.05, max: 0.05, noNaN: true })), { minLength: 1, maxLength: 20 }),
  });

  test('solves a hundred random networks, straight and transposed, to a residual of 1e-12 of what flows', () => {
    fc.assert(
      fc.property(bordered, ({ net: { n, tree, more, currents }, skew }) => {
        const edges = [...tree.map(([to, g], i) => [i, i === 0 ? -1 : to % i, g] as const), ...more].filter(([i, j]) => i !== j);
        const entries = skew.map(([i, j, g]) => [i % n, j % n, g] as const);
        const border = new Set(entries.flatMap((e) => [e[0], e[1]]));
        const pattern = makePattern(
          n,
          edges.filter(([, j]) => j >= 0).map(([i, j]) => [i, j] as const),
          border,
        );
        expect(pattern.border).toBe(n - border.size);
        const values = new Float64Array(pattern.row.length + 1);
        const dense = Matrix.zeros(n, n);
        const put = (i: number, j: number, g: number) => dense.set(i, j, dense.get(i, j) + g);
        for (const [i, j, g] of edges) {
          values[slotOf(pattern, i, j < 0 ? i : j)]! += g;
          put(i, i, g);
          if (j < 0) continue;
          put(j, j, g);
          put(i, j, -g);
          put(j, i, -g);
        }
        for (const [i, j, g] of entries) put(i, j, g);
        const linear = makeLinear({
          n,
          pattern,
          skew: {
            rows: Int32Array.from(entries, ([i]) => i),
            columns: Int32Array.from(entries, ([, j]) => j),
            values: Float64Array.from(entries, ([, , g]) => g),
          },
          evaluate: () => {},
          addMass: () => {},
          massTimes: () => {},
        });
        expect(linear.refactor(values)).toBe(-1);
        const right = Float64Array.from(currents);
        for (const [a, solveFor] of [
          [dense, linear.solve],
          [dense.transpose(), linear.solveTransposed],
        ] as const) {
          const x = new Float64Array(n);
          solveFor(right, x);
          const residual = a.mmul(Matrix.columnVector([...x])).to1DArray();
          const flows = a.to2DArray().map((row) => row.reduce((sum, g, j) => sum + Math.abs(g * x[j]!), 0));
          const through = Math.max(...flows);
          for (let i = 0; i < n; i++) expect(Math.abs(residual[i]! - currents[i]!)).toBeLessThan(1e-12 * through + 1e-15);
          if (!conditionIsMild(a)) continue;
          const exact = new LuDecomposition(a).solve(Matrix.columnVector(currents)).to1DArray();
          const largest = Math.max(...exact.map(Math.abs));
          for (let i = 0; i < n; i++) expect(Math.abs(x[i]! - exact[i]!)).toBeLessThan(1e-9 * largest + 1e-15);
        }
      }),
      { numRuns: 100 },
    );
  });
});

test('two rows of a border that are coupled by 1e8 and tied to the reference by 1e-12 keep their tie', () => {
  const pattern = makePattern(2, [[0, 1]], new Set([0, 1]));
  const values = new Float64Array(4);
  values[slotOf(pattern, 0, 1)] = 1e8;
  values[slotOf(pattern, 0, 0)] = 1e-12;
  const nothing = { rows: Int32Array.of(0), columns: Int32Array.of(1), values: Float64Array.of(0) };
  const linear = makeLinear({ n: 2, pattern, skew: nothing, evaluate: () => {}, addMass: () => {}, massTimes: () => {} });
  expect(linear.refactor(values)).toBe(-1);
  const x = new Float64Array(2);
  linear.solve(Float64Array.of(0, 2e-12), x);
  for (const volts of x) expect(volts).toBeCloseTo(2, 12);
});

/** Answers may differ by rounding times the condition: compared where that stays below 1e-10. */
function conditionIsMild(m: Matrix): boolean {
  const norm = (a: Matrix) => Math.max(...a.to2DArray().map((row) => row.reduce((sum, v) => sum + Math.abs(v), 0)));
  return norm(m) * norm(inverse(m)) < 1e-10 / Number.EPSILON;
}

/** Integrates a network from x over `span` with steps of one size, or with error control. */
function integrate(net: Network, x0: readonly number[], span: number, steps: number | { tolerance: number }): Float64Array {
  let x = Float64Array.from([...x0, 0]);
  const w = makeRosenbrock(net, makeLinear(net));
  const out = new Float64Array(x.length);
  if (typeof steps === 'number') {
    for (let i = 0; i < steps; i++) {
      linearise(w, x);
      tryStep(w, x, span / steps, 1e-6, 1e-6, out);
      x = out.slice();
    }
    return x;
  }
  let h = span / 1000;
  for (let t = 0; t < span; ) {
    linearise(w, x);
    for (;;) {
      const size = Math.min(h, span - t);
      const error = tryStep(w, x, size, steps.tolerance, steps.tolerance, out);
      h = nextSize(size, Math.max(error, 1e-6));
      if (error <= 1) {
        x = out.slice();
        t += size;
        break;
      }
    }
  }
  return x;
}

describe('stepping in time', () => {
  /** An LED that discharges a capacitor through a resistor: nonlinear, one state, one algebraic node. */
  const discharge = () => {
    const net = new Network(2);
    net.addCapacitor(0, GROUND, 1e-6);
    net.addConductance(0, 1, 1 / 330);
    net.addJunction(1, GROUND, { is: 1.904346883358115e-18, nvt: 2 * THERMAL_VOLTAGE, rs: 4 });
    net.seal();
    return net;
  };
  const consistent = (net: Network): number[] => {
    // the node between resistor and LED at 5 V on the capacitor: one resistor to a fixed 5 V
    const fixed = new Network(2);
    fixed.addConductance(0, GROUND, 1);
    fixed.addSupply(0, GROUND, { volts: 5, ohms: 1e-9, amps: 1e9 });
    fixed.addConductance(0, 1, 1 / 330);
    fixed.addJunction(1, GROUND, { is: 1.904346883358115e-18, nvt: 2 * THERMAL_VOLTAGE, rs: 4 });
    fixed.switchSupply({ kind: 'supply', index: 0 }, true);
    fixed.seal();
    const x = new Float64Array(3);
    expect(newton(makeNewton(fixed), x).ok).toBe(true);
    expect(net.n).toBe(2);
    return [x[0]!, x[1]!];
  };

  test('halving the step of a nonlinear discharge lowers the error about sixteenfold: order 4', () => {
    const net = discharge();
    const x0 = consistent(net);
    const exact = integrate(net, x0, 5e-4, 4096)[0]!;
    const error = (steps: number) => Math.abs(integrate(net, x0, 5e-4, steps)[0]! - exact);
    const order = Math.log2(error(32) / error(64));
    expect(order).toBeGreaterThan(3.5);
    expect(order).toBeLessThan(4.8);
  });

  test('agrees with a general ODE library (odex, GBS extrapolation) to 1e-5', () => {
    const net = discharge();
    const x0 = consistent(net);
    const ours = integrate(net, x0, 1e-3, { tolerance: 1e-7 })[0]!;
    const inner = new Float64Array(1);
    /** current [A] out of the capacitor at v: bisection on the one node between, independent of our Newton */
    const current = (v: number): number => {
      let [low, high] = [0, v];
      for (let i = 0; i < 80; i++) {
        const m = (low + high) / 2;
        inner[0] = m;
        const led = ledCurrent(m);
        if (led > (v - m) / 330) high = m;
        else low = m;
      }
      return (v - low) / 330;
    };
    const solver = new Solver(1);
    solver.absoluteTolerance = 1e-10;
    solver.relativeTolerance = 1e-10;
    const theirs = solver.solve((_t, y) => [-current(y[0]!) / 1e-6], 0, [x0[0]!], 1e-3).y[0]!;
    expect(Math.abs(ours / theirs - 1)).toBeLessThan(1e-5);
  });
});

/** i = Is·(exp((v − i·Rs)/nVt) − 1) by bisection. */
function ledCurrent(v: number): number {
  const is = 1.904346883358115e-18;
  let [low, high] = [-is, Math.max(v / 4, 0)];
  for (let k = 0; k < 80; k++) {
    const m = (low + high) / 2;
    if (m > is * Math.expm1((v - m * 4) / (2 * THERMAL_VOLTAGE))) high = m;
    else low = m;
  }
  return (low + high) / 2;
}
