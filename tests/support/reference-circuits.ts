/** Laws and small circuits solved by other means than ours: Shockley’s law by bisection, nodes by a general library, a transistor’s stage by Newton’s method. */
import { Matrix, solve } from 'ml-matrix';
import { zeroOf } from './stepping.ts';

/** kT/q at 25 °C [V]. */
export const VT = 0.025692579121085315;
// Is, n·kT/q and Rs: SOURCES.md, closed forms (by forward voltage at 10 mA)
export const RED = { is: 1.904346883358115e-18, nvt: 2.0 * VT, rs: 4 };
export const GREEN = { is: 2.1176125928637007e-18, nvt: 2.2 * VT, rs: 6 };
export type Law = typeof RED;

/** Shockley's law behind a resistance: the current [A] at v, by bisection. */
export const shockley = (v: number, { is, nvt, rs }: Law): number =>
  v <= 0 ? 0 : zeroOf((i) => v - i * rs - nvt * Math.log1p(i / is), 0, v / rs);

/** Node voltages [V] of conductances between numbered nodes, node 0 held at 0, with currents [A] into the nodes. */
export function nodal(
  count: number,
  ohms: ReadonlyArray<readonly [a: number, b: number, ohms: number]>,
  amps: Readonly<Record<number, number>>,
): number[] {
  const g = Matrix.zeros(count, count);
  const into = Matrix.zeros(count, 1);
  for (const [a, b, r] of ohms)
    for (const [i, j] of [
      [a, b],
      [b, a],
    ] as const) {
      if (i === 0) continue;
      g.set(i - 1, i - 1, g.get(i - 1, i - 1) + 1 / r);
      if (j !== 0) g.set(i - 1, j - 1, g.get(i - 1, j - 1) - 1 / r);
    }
  for (const [node, i] of Object.entries(amps)) into.set(Number(node) - 1, 0, i);
  return [0, ...solve(g, into).to1DArray()];
}

/** B, C and E [V] of a stage of 33 kΩ and 10 kΩ at the base, 2.2 kΩ and 1 kΩ at 9 V; αF = 150/151, αR = 5/6, IS = 1e-14 A, 50 mΩ at each junction (the part's own figures, from memory). */
export function transistorByNewton(): number[] {
  const [is, aF, aR] = [1e-14, 150 / 151, 5 / 6];
  const forward = (v: number) => signed(v, { is: is / aF, nvt: VT, rs: 0.05 });
  const reverse = (v: number) => signed(v, { is: is / aR, nvt: VT, rs: 0.05 });
  const left = ([b = 0, c = 0, e = 0]: readonly number[]) => {
    const [f, r] = [forward(b - e), reverse(b - c)];
    const [ic, ib] = [aF * f - r, (1 - aF) * f + (1 - aR) * r];
    return [(9 - b) / 33e3 - b / 10e3 - ib, (9 - c) / 2.2e3 - ic, ic + ib - e / 1e3];
  };
  let x = [2, 6, 1.4];
  for (let turn = 0; turn < 60; turn++) {
    const f = left(x);
    const slope = Matrix.zeros(3, 3);
    for (let j = 0; j < 3; j++) {
      const moved = left(x.map((v, k) => (k === j ? v + 1e-7 : v)));
      for (let i = 0; i < 3; i++) slope.set(i, j, (moved[i]! - f[i]!) / 1e-7);
    }
    const by = solve(slope, Matrix.columnVector(f)).to1DArray();
    const most = Math.max(...by.map(Math.abs));
    x = x.map((v, k) => v - by[k]! * Math.min(1, 0.1 / most));
  }
  return x;
}
/** With the saturation current that flows backwards. */
const signed = (v: number, law: Law): number => (v > 0 ? shockley(v, law) : law.is * Math.expm1(v / law.nvt));
