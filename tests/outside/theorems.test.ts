/** Theorems that hold for any network, of our networks: Tellegen's, reciprocity, Millman's, conservation of charge; and a stiff problem with a known answer. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Device, GROUND, Network } from '../../sim-core/devices/network.ts';
import type { Equations } from '../../sim-core/solve/equations.ts';
import { makeLinear } from '../../sim-core/solve/linear.ts';
import { makeNewton, newton } from '../../sim-core/solve/newton.ts';
import { makePattern } from '../../sim-core/solve/pattern.ts';
import { linearise, makeRosenbrock, nextSize, tryStep } from '../../sim-core/solve/rosenbrock.ts';
import { stepped } from '../support/stepping.ts';

const RED = { is: 1.904346883358115e-18, nvt: 2 * 0.025692579121085315, rs: 4 };

/** A random connected graph of n nodes beside ground: each is tied to an earlier one or to ground, then some more; with a resistance for each edge. */
const graphs = fc.integer({ min: 3, max: 25 }).chain((n) =>
  fc.record({
    n: fc.constant(n),
    tree: fc.array(fc.tuple(fc.nat(), fc.integer({ min: 10, max: 100_000 })), { minLength: n, maxLength: n }),
    more: fc.array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1), fc.integer({ min: 10, max: 100_000 })), { maxLength: 2 * n }),
  }),
);
type Graph = typeof graphs extends fc.Arbitrary<infer G> ? G : never;
const edgesOf = ({ tree, more }: Graph) =>
  [...tree.map(([to, r], i) => [i, i === 0 ? GROUND : to % i, r] as const), ...more].filter(([a, b]) => a !== b);

/** Node voltages at rest. */
function atRest(network: Network, supplies: readonly Device[]): Float64Array {
  network.seal();
  for (const s of supplies) network.switchSupply(s, true);
  const x = new Float64Array(network.n + 1);
  expect(newton(makeNewton(network), x).ok).toBe(true);
  return x;
}

describe('Tellegen’s theorem (B. D. H. Tellegen 1952): Σ v·i over all branches is 0', () => {
  /** Resistors, every fifth edge an LED instead, one supply at node 0. */
  const build = (g: Graph, volts: number) => {
    const network = new Network(g.n);
    const supply = network.addSupply(0, GROUND, { volts, ohms: 0.5, amps: 10 });
    const devices = edgesOf(g).map(([a, b, r], k) =>
      k % 5 === 4 ? network.addJunction(a, b, RED) : network.addConductance(a, b, 1 / r, true),
    );
    return { network, supply, devices: [supply, ...devices], x: atRest(network, [supply]) };
  };
  type Built = ReturnType<typeof build>;
  const across = ({ network, x }: Built, d: Device) => {
    const [a, b] = network.nodesOf(d);
    return (a === GROUND ? 0 : x[a]!) - (b === GROUND ? 0 : x[b]!);
  };
  /** Σ v·i and Σ |v·i|; what every node leaks to ground (1e-12 S) is a branch too. */
  const sums = (volts: Built, amps: Built) => {
    const terms = volts.devices.map((d, k) => across(volts, d) * amps.network.current(amps.devices[k]!, amps.x));
    const leaks = Array.from({ length: volts.network.n }, (_, i) => volts.x[i]! * 1e-12 * amps.x[i]!);
    return [...terms, ...leaks].reduce(([sum, size], t) => [sum! + t, size! + Math.abs(t)], [0, 0]) as [number, number];
  };
  test('in a hundred random networks of resistors and LEDs what the supply gives is what the others take, to 1e-9', () => {
    fc.assert(
      fc.property(graphs, (g) => {
        const built = build(g, 9);
        const [sum, size] = sums(built, built);
        expect(size).toBeGreaterThan(0);
        expect(Math.abs(sum)).toBeLessThan(1e-9 * size + 1e-12);
      }),
      { numRuns: 100, seed: 1 },
    );
  });
  test('and with the voltages of one network and the currents of another on the same graph', () => {
    fc.assert(
      fc.property(graphs, (g) => {
        const reversed = { ...g, tree: g.tree.map(([to, r], i) => [to, g.tree[g.n - 1 - i]![1] + r] as [number, number]) };
        const [sum, size] = sums(build(g, 9), build(reversed, 3));
        expect(size).toBeGreaterThan(0);
        expect(Math.abs(sum)).toBeLessThan(1e-9 * size + 1e-12);
      }),
      { numRuns: 100, seed: 2 },
    );
  });
});

test('reciprocity: a current into one node lifts another as much as the same current there lifts the first, to 1e-9', () => {
  fc.assert(
    fc.property(graphs, fc.nat(), fc.nat(), (g, first, second) => {
      const [p, q] = [first % g.n, second % g.n];
      const lifted = (from: number, at: number) => {
        const network = new Network(g.n);
        for (const [a, b, r] of edgesOf(g)) network.addConductance(a, b, 1 / r, true);
        // 1 MV behind 1 GΩ is a current of 1 mA into whatever is small beside it; what it is, is read
        const source = network.addSupply(from, GROUND, { volts: 1e6, ohms: 1e9, amps: 1 });
        const x = atRest(network, [source]);
        return x[at]! / -network.current(source, x);
      };
      // transfer resistances are compared with the resistance of the whole: where they are small beside it, their last digits are its
      const scale = lifted(p, p) + lifted(q, q);
      expect(Math.abs(lifted(p, q) - lifted(q, p))).toBeLessThan(1e-9 * scale);
    }),
    { numRuns: 60, seed: 3 },
  );
});

test('Millman’s theorem: Σ(E/R)/Σ(1/R) at the node where any number of supplies meet', () => {
  const arms = fc.array(fc.tuple(fc.integer({ min: 0, max: 30 }), fc.integer({ min: 10, max: 1_000_000 })), {
    minLength: 2,
    maxLength: 12,
  });
  fc.assert(
    fc.property(arms, (all) => {
      const network = new Network(1);
      const supplies = all.map(([volts, ohms]) => network.addSupply(0, GROUND, { volts, ohms, amps: 1e3 }));
      const x = atRest(network, supplies);
      const sum = (of: (e: number, r: number) => number) => all.reduce((s, [e, r]) => s + of(e, r), 0);
      const expected = sum((e, r) => e / r) / (sum((_, r) => 1 / r) + 1e-12);
      expect(Math.abs(x[0]! - expected)).toBeLessThan(1e-9 * expected + 1e-12);
    }),
    { numRuns: 100, seed: 4 },
  );
});

test('charge is kept: of two capacitors joined by a resistor each ends at (C1·V1 + C2·V2)/(C1 + C2), on an exponential of R·C1·C2/(C1 + C2)', () => {
  const [c1, c2, r, v1, v2] = [10e-6, 3.3e-6, 1e3, 5, 1] as const;
  const network = new Network(2);
  network.addCapacitor(0, GROUND, c1);
  network.addCapacitor(1, GROUND, c2);
  network.addConductance(0, 1, 1 / r);
  network.seal();
  const tau = (r * c1 * c2) / (c1 + c2);
  const end = (c1 * v1 + c2 * v2) / (c1 + c2);
  const times = [0.1, 0.5, 1, 2, 5, 15].map((k) => k * tau);
  const { at } = stepped(network, [v1, v2], times);
  for (const [i, t] of times.entries()) {
    const share = Math.exp(-t / tau);
    expect(Math.abs(at[i]![0]! / (end + (v1 - end) * share) - 1)).toBeLessThan(1e-5);
    expect(Math.abs(at[i]![1]! / (end + (v2 - end) * share) - 1)).toBeLessThan(1e-5);
    // whatever the error of the steps, they lose no charge
    expect(Math.abs((c1 * at[i]![0]! + c2 * at[i]![1]!) / (c1 * v1 + c2 * v2) - 1)).toBeLessThan(1e-8);
  }
});

describe('Robertson’s problem, three reactions whose rates differ by 10⁹ (H. H. Robertson 1966)', () => {
  /** y1′ = −0.04·y1 + 10⁴·y2·y3, y3′ = 3·10⁷·y2², y2′ = −y1′ − y3′, as M·x′ = −F(x) with M = 1 and a Jacobian without symmetry. */
  function robertson(): Equations {
    const pairs = [0, 1, 2].flatMap((i) => [0, 1, 2].map((j) => [i, j] as const));
    const skew = {
      rows: Int32Array.from(pairs, ([i]) => i),
      columns: Int32Array.from(pairs, ([, j]) => j),
      values: new Float64Array(9),
    };
    const pattern = makePattern(3, [], new Set([0, 1, 2]));
    return {
      n: 3,
      pattern,
      skew,
      evaluate([a = 0, b = 0, c = 0], residual, magnitude, jacobian) {
        const [slow, back, fast] = [0.04 * a, 1e4 * b * c, 3e7 * b * b];
        residual.set([slow - back, back + fast - slow, -fast]);
        magnitude.set([slow + back, slow + back + fast, fast]);
        if (!jacobian) return;
        jacobian.fill(0);
        skew.values.set([0.04, -1e4 * c, -1e4 * b, -0.04, 1e4 * c + 6e7 * b, 1e4 * b, 0, -6e7 * b, 0]);
      },
      // rows are tied to nothing: every slot is one of the diagonal
      addMass(values, scale) {
        for (let i = 0; i < 3; i++) values[i] = (values[i] as number) + scale;
      },
      massTimes: (x, out) => out.set(x),
    };
  }
  const at = (times: readonly number[], tolerance: number) => {
    const equations = robertson();
    const w = makeRosenbrock(equations, makeLinear(equations));
    let x = Float64Array.of(1, 0, 0, 0);
    const out = new Float64Array(4);
    let [now, size, steps, tries] = [0, 1e-6, 0, 0];
    const seen = times.map((until) => {
      while (now < until && tries++ < 10_000) {
        const h = Math.min(size, until - now);
        linearise(w, x);
        const error = tryStep(w, x, h, tolerance, tolerance * 1e-5, out);
        if (error <= 1) {
          x = out.slice();
          now = h === until - now ? until : now + h;
          steps++;
        }
        if (error > 1 || h === size) size = nextSize(h, Math.min(Math.max(error, 1e-6), 1e6));
      }
      return [...x.slice(0, 3)];
    });
    return { seen, steps };
  };

  // E. Hairer, G. Wanner, Solving Ordinary Differential Equations II, ch. IV.1 and IV.10: at t = 40 .7158, 9.185e-6, .2842
  test('is .7158, 9.185e-6 and .2842 at t = 40, to the digits that are printed', () => {
    const [y] = at([40], 1e-7).seen;
    expect(y![0]!.toFixed(4)).toBe('0.7158');
    expect(Math.abs(y![1]! / 9.185e-6 - 1)).toBeLessThan(1e-4);
    expect(y![2]!.toFixed(4)).toBe('0.2842');
  });
  test('keeps its sum, over nine decades of time, in a few hundred steps', () => {
    const { seen, steps } = at([0.4, 4, 40, 400, 4e3, 4e4, 4e5, 4e6, 4e7], 1e-6);
    for (const y of seen) expect(Math.abs(y[0]! + y[1]! + y[2]! - 1)).toBeLessThan(1e-6);
    expect(steps).toBeLessThan(500);
    // it goes on to y3 alone
    expect(seen.at(-1)![2]).toBeGreaterThan(0.99);
  });
});
