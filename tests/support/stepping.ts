/** A network stepped in time as the running bench does it, with the bench's own island, tolerances and step control; and a general library beside it. */
import { Solver } from 'odex';
import type { Network } from '../../sim-core/devices/network.ts';
import { ActiveSubcircuit } from '../../sim-core/run/analog/active-subcircuit.ts';
import { nextSize } from '../../sim-core/solve/rosenbrock.ts';

interface Stepped {
  readonly at: Float64Array[];
  /** accepted ones */
  readonly steps: number;
}

/** Everything that is made once for a network; then, from where its capacitors begin, its nodes' voltages at the given times [s], ascending. */
export function stepper(network: Network): (x0: readonly number[], times: readonly number[]) => Stepped {
  const island = new ActiveSubcircuit(network, network.unfolded);
  return (x0, times) => {
    const x = Float64Array.from([...x0, 0]);
    const end = x.slice();
    if (!island.rest(end).ok) throw new Error('the network has no rest');
    // what it draws elsewhere is nothing: the island is the whole network
    island.follow(end);
    if (!island.jump(x)) throw new Error('the network cannot follow the jump');
    const out = x.slice();
    let steps = 0;
    let size = 1e-13;
    let now = 0;
    const at = times.map((until) => {
      while (now < until) {
        island.from(x);
        const h = island.way() ? until - now : Math.min(size, until - now);
        const error = island.attempt(h, out);
        if (error <= 1) {
          x.set(out);
          now = h === until - now ? until : now + h;
          steps++;
        }
        if (error > 1 || h === size) size = nextSize(h, Math.min(Math.max(error, 1e-6), 1e6));
      }
      const seen = x.slice();
      network.complete(seen);
      return seen;
    });
    return { at, steps };
  };
}

/** The same of a network that is stepped once. */
export const stepped = (network: Network, x0: readonly number[], times: readonly number[]): Stepped => stepper(network)(x0, times);

/** States y′ = rate(y) at the given times by odex (GBS extrapolation). */
export function byOdex(
  rate: (y: readonly number[]) => number[],
  y0: readonly number[],
  times: readonly number[],
  relative = 1e-11,
): number[][] {
  let y = [...y0];
  let now = 0;
  return times.map((until) => {
    const solver = new Solver(y.length);
    solver.absoluteTolerance = 0.1 * relative;
    solver.relativeTolerance = relative;
    solver.maxSteps = 1e7;
    const solved = solver.solve((_t, state) => rate(state), now, y, until);
    if (solved.outcome !== 0) throw new Error('the library did not get to the end');
    y = solved.y;
    now = until;
    return [...y];
  });
}

/** The place between two where a falling function passes 0, by bisection to the last digit. */
export function zeroOf(falling: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let i = 0; i < 200; i++) {
    const m = (a + b) / 2;
    if (m <= a || m >= b) break;
    if (falling(m) > 0) a = m;
    else b = m;
  }
  return (a + b) / 2;
}
