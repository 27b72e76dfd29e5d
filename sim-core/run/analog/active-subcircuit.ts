/**
 * A part of the circuit that moves while the rest lies still: some blocks, and the supplies' nodes that they lean on.
 * What the rest draws from those nodes is held at what it will draw when everything rests; its change is second order while the rails move by millivolts.
 */
import { GROUND, type Network, type Node } from '../../devices/network.ts';
import { Decay, MOST_ROWS } from '../../solve/decay.ts';
import type { Equations } from '../../solve/equations.ts';
import { type Converged, makeNewton, type Newton, newton } from '../../solve/newton.ts';
import { linearise, makeRosenbrock, type Rosenbrock, tryStep } from '../../solve/rosenbrock.ts';

/** Error allowed in one step: relative, and in V. */
const RELATIVE = 1e-6;
const ABSOLUTE = 1e-6;
/** Time in which capacitors hold while everything else follows a jump [s]. */
const INSTANT = 1e-15;

/** nodes: unfolded ones, whole blocks with the supplies' nodes that they lean on. */
export class ActiveSubcircuit {
  readonly nodes: readonly Node[];
  private readonly part: Network;
  private readonly n: number;
  private readonly here: Float64Array;
  private readonly there: Float64Array;
  private readonly held: Float64Array;
  private readonly spare: Float64Array;
  private readonly spare2: Float64Array;
  private readonly atRest: Newton;
  private readonly atJump: Newton;
  private inTime: Rosenbrock | undefined;
  /** the way to rest in closed form, where it can have one; whether it is made for the values as they are; whether it holds from here */
  private readonly decay: Decay | undefined;
  private readonly mass: Float64Array;
  private readonly slopes: Float64Array;
  private readonly place: Int32Array;
  private factored = false;
  private exact = false;

  constructor(whole: Network, nodes: readonly Node[]) {
    this.nodes = nodes;
    this.part = whole.extract(this.nodes);
    const { n } = this.part;
    this.n = n;
    this.here = new Float64Array(this.n + 1);
    this.there = new Float64Array(this.n + 1);
    this.held = new Float64Array(this.n + 1);
    this.spare = new Float64Array(this.n + 1);
    this.spare2 = new Float64Array(this.n + 1);
    this.atRest = makeNewton(this.part);
    this.atJump = makeNewton(holdingCharge(this.part, this.held));
    const values = this.part.pattern.row.length + 1;
    this.mass = new Float64Array(values);
    this.part.addMass(this.mass, 1);
    this.slopes = new Float64Array(values);
    this.decay = n <= MOST_ROWS && this.part.mayBeLinear ? new Decay(this.part.pattern, this.mass) : undefined;
    this.place = new Int32Array(whole.n + 1).fill(n);
    for (let i = 0; i < n; i++) this.place[this.nodes[i] as number] = i;
  }

  /** the way from where the step began to rest, if it is linear and so known in closed form */
  way(): Decay | undefined {
    return this.exact ? this.decay : undefined;
  }

  /** within h [s] of that way, the voltage from a to b (of the whole circuit) leaves what lies between its two ends by no more than this [V] */
  strays(a: Node, b: Node, h: number): number {
    return this.exact && this.decay ? this.decay.strays(this.row(a), this.row(b), h) : 0;
  }

  /** the time constant of what moves this voltage most on that way [s]; Infinity where it is not known */
  pace(a: Node, b: Node): number {
    return this.exact && this.decay ? this.decay.pace(this.row(a), this.row(b)) : Number.POSITIVE_INFINITY;
  }

  /** of a node of the whole circuit; what is not of this island has the row of ground */
  row(node: Node): number {
    return node === GROUND ? this.n : (this.place[node] as number);
  }

  /** the circuit's values have changed: solves for where it rests, from `end` (whole circuit) and into it, all else in `end` as it stands */
  rest(end: Float64Array): Converged {
    this.part.follow();
    this.factored = false;
    this.gather(end, this.here);
    const solved = newton(this.atRest, this.here);
    this.scatter(this.here, end);
    return solved;
  }

  /** the circuit's values have changed, and it will rest at `end` (whole circuit) whatever the rest of the circuit does */
  follow(end: Float64Array): void {
    this.part.follow();
    this.gather(end, this.here);
    this.part.restAt(this.here, this.spare, this.spare2);
    if (!this.decay) return;
    this.part.evaluate(this.here, this.spare, this.spare2, this.slopes);
    this.decay.factor(this.here, this.slopes, this.mass);
    this.factored = true;
  }

  /** capacitors hold, everything else follows: `x` (whole circuit) becomes the moment after a jump; false if that could not be solved */
  jump(x: Float64Array): boolean {
    // every node holds its charge
    if (this.factored && this.decay?.count === this.n) return true;
    this.gather(x, this.here);
    this.held.set(this.here);
    const jumped = newton(this.atJump, this.here);
    if (jumped.ok) this.scatter(this.here, x);
    return jumped.ok;
  }

  /** begins a step at x (whole circuit) */
  from(x: Float64Array): void {
    this.gather(x, this.here);
    this.exact = this.decay !== undefined && this.factored && this.isLinearFrom(this.decay);
    if (this.exact) return;
    this.inTime ??= makeRosenbrock(this.part, this.atJump.linear);
    linearise(this.inTime, this.here);
  }

  /** tries a step of h [s] from there; `to` gets this island's nodes; returns error over tolerance */
  attempt(h: number, to: Float64Array): number {
    let error = 0;
    if (this.exact) this.decay?.at(h, this.there);
    else if (this.inTime) error = tryStep(this.inTime, this.here, h, RELATIVE, ABSOLUTE, this.there);
    this.scatter(this.there, to);
    return error;
  }

  private isLinearFrom(decay: Decay): boolean {
    decay.begin(this.here);
    return this.part.isLinearOn(decay);
  }

  private gather(from: Float64Array, into: Float64Array): void {
    for (let i = 0; i < this.n; i++) into[i] = from[this.nodes[i] as number] as number;
  }

  private scatter(from: Float64Array, into: Float64Array): void {
    for (let i = 0; i < this.n; i++) into[this.nodes[i] as number] = from[i] as number;
  }
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
      // without symmetry nothing but the residual says that it can be no smaller
      if (network.skew) network.massRounding(x, 1 / INSTANT, magnitude);
      if (jacobian) network.addMass(jacobian, 1 / INSTANT);
    },
  };
}
