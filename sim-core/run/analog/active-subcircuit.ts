/**
 * A part of the circuit that moves while the rest lies still: some blocks, and the supplies' nodes that they lean on.
 * What the rest draws from those nodes is held at what it will draw when everything rests; its change is second order while the rails move by millivolts.
 */
import type { Network, Node } from '../../devices/network.ts';
import type { Equations } from '../../solve/equations.ts';
import { type Converged, makeNewton, newton } from '../../solve/newton.ts';
import { linearise, makeRosenbrock, tryStep } from '../../solve/rosenbrock.ts';

/** Error allowed in one step: relative, and in V. */
const RELATIVE = 1e-6;
const ABSOLUTE = 1e-6;
/** Time in which capacitors hold while everything else follows a jump [s]. */
const INSTANT = 1e-15;

export interface ActiveSubcircuit {
  /** nodes of the whole circuit, in the island's own order */
  readonly nodes: readonly Node[];
  /** the circuit's values have changed: solves for where it rests, from `end` (whole circuit) and into it, all else in `end` as it stands */
  rest(end: Float64Array): Converged;
  /** the circuit's values have changed, and it will rest at `end` (whole circuit) whatever the rest of the circuit does */
  follow(end: Float64Array): void;
  /** capacitors hold, everything else follows: `x` (whole circuit) becomes the moment after a jump; false if that could not be solved */
  jump(x: Float64Array): boolean;
  /** begins a step at x (whole circuit) */
  from(x: Float64Array): void;
  /** tries a step of h [s] from there; `to` gets this island's nodes; returns error over tolerance */
  attempt(h: number, to: Float64Array): number;
}

/** nodes: unfolded ones, whole blocks with the supplies' nodes that they lean on. */
export function makeActiveSubcircuit(whole: Network, nodes: readonly Node[]): ActiveSubcircuit {
  const part = whole.extract(nodes);
  const { n } = part;
  const here = new Float64Array(n + 1);
  const there = new Float64Array(n + 1);
  const held = new Float64Array(n + 1);
  const spare = new Float64Array(n + 1);
  const spare2 = new Float64Array(n + 1);
  const atRest = makeNewton(part);
  const atJump = makeNewton(holdingCharge(part, held));
  const inTime = makeRosenbrock(part, atJump.linear);
  const gather = (from: Float64Array, into: Float64Array) => {
    for (let i = 0; i < n; i++) into[i] = from[nodes[i] as number] as number;
  };
  const scatter = (from: Float64Array, into: Float64Array) => {
    for (let i = 0; i < n; i++) into[nodes[i] as number] = from[i] as number;
  };
  return {
    nodes,
    rest(end) {
      part.follow();
      gather(end, here);
      const solved = newton(atRest, here);
      scatter(here, end);
      return solved;
    },
    follow(end) {
      part.follow();
      gather(end, here);
      part.restAt(here, spare, spare2);
    },
    jump(x) {
      gather(x, here);
      held.set(here);
      const jumped = newton(atJump, here);
      if (jumped.ok) scatter(here, x);
      return jumped.ok;
    },
    from(x) {
      gather(x, here);
      linearise(inTime, here);
    },
    attempt(h, to) {
      const error = tryStep(inTime, here, h, RELATIVE, ABSOLUTE, there);
      scatter(there, to);
      return error;
    },
  };
}

/** The network with every capacitor as a source that holds what it had at `before`, for an instant: M·(x − before)/INSTANT beside F(x). */
function holdingCharge(network: Network, before: Float64Array): Equations {
  const { n } = network;
  const moved = new Float64Array(n + 1);
  const charge = new Float64Array(n + 1);
  return {
    n,
    pattern: network.pattern,
    ...(network.skew ? { skew: network.skew } : {}),
    addMass: (values, scale) => network.addMass(values, scale),
    massTimes: (x, out) => network.massTimes(x, out),
    evaluate(x, residual, magnitude, jacobian) {
      network.evaluate(x, residual, magnitude, jacobian);
      for (let i = 0; i < n; i++) moved[i] = (x[i] as number) - (before[i] as number);
      network.massTimes(moved, charge);
      for (let i = 0; i < n; i++) {
        const current = (charge[i] as number) / INSTANT;
        residual[i] = (residual[i] as number) + current;
        magnitude[i] = (magnitude[i] as number) + Math.abs(current);
      }
      if (jacobian) network.addMass(jacobian, 1 / INSTANT);
    },
  };
}
