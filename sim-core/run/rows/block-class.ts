/** Blocks of a circuit that are equal but for where they stand: one of them, solved between its rail and ground, speaks for all. */
import { type Device, LEAKAGE_TO_GROUND, type Network, type Node, type Pull } from '../../devices/network.ts';
import { type Equations, RELATIVE_RESIDUAL, RESIDUAL_FLOOR } from '../../solve/equations.ts';
import { makeNewton, type Newton, newton } from '../../solve/newton.ts';
import { slotOf } from '../../solve/pattern.ts';
import type { ChipInput, ContactSite, LedSite } from '../circuit/sites.ts';
import { fitTerms, type Range, TERMS, type ThreePoints, valueAt } from './polynomial.ts';

/** What stands in one block: its nodes that are solved for, what in it has states, and what is read off it. */
export interface BlockParts {
  /** the rail that it leans on */
  readonly rail: Node;
  readonly nodes: readonly Node[];
  readonly contacts: readonly ContactSite[];
  readonly outputs: readonly Device[];
  readonly inputs: readonly ChipInput[];
  readonly leds: readonly LedSite[];
}

/** One state of a class at rest, at one voltage of its rail. */
interface Rest {
  /** node voltages in the order of BlockParts.nodes, then the rail's and ground; and by how much they grow with the rail's */
  readonly x: Float64Array;
  readonly slope: Float64Array;
  /** what the block takes from its rail [A], and by how much that grows with the rail's voltage [S] */
  amps: number;
  siemens: number;
}

/** So stiff that a rail held by it does not move [S]. */
const HELD = 1e30;
/** Between its three points a polynomial may leave this part of the residual that Newton's method may. Our choice. */
const STRICT = 0.1;

/** The states of a class are numbers: contacts count 0 open, 1 closed; outputs 0 off, 1 low, 2 high; each times its weight. */
export class BlockClass {
  readonly parts: BlockParts;
  /** by contact, then by output: what one more counts in the state's number */
  private readonly weights: readonly number[];
  private readonly part: Network;
  private readonly contacts: readonly Device[];
  private readonly outputs: readonly Device[];
  private readonly solver: Newton;
  private readonly toRail: Int32Array;
  private readonly residual: Float64Array;
  private readonly magnitude: Float64Array;
  private readonly trial: Float64Array;
  /** at t = −1, 0, 1 */
  private readonly rests: readonly [Rest, Rest, Rest];

  constructor(whole: Network, parts: BlockParts) {
    this.parts = parts;
    this.part = whole.extract([...parts.nodes, parts.rail], [parts.rail]);
    this.part.follow();
    this.contacts = parts.contacts.map((c) => this.part.within(c.device));
    this.outputs = parts.outputs.map((d) => this.part.within(d));
    this.weights = weightsOf(parts);
    const n = parts.nodes.length;
    this.solver = makeNewton(railHeld(this.part, n));
    this.toRail = Int32Array.from(parts.nodes, (_, i) => slotOf(this.part.pattern, i, n));
    const array = () => new Float64Array(n + 2);
    [this.residual, this.magnitude, this.trial] = [array(), array(), array()];
    const rest = (): Rest => ({ x: array(), slope: array(), amps: 0, siemens: 0 });
    this.rests = [rest(), rest(), rest()];
  }

  /**
   * This state at rest over this range of the rail's voltage: TERMS for each node in the order of `parts.nodes` [V], then for what the block takes from its
   * rail [A]. Undefined if no rest was found, or if polynomials do not leave the residual that is asked for.
   */
  curve(state: number, { middle, half }: Range): Float64Array | undefined {
    this.set(state);
    const { rests } = this;
    const [left, here, right] = rests;
    here.x.fill(0);
    if (!this.rest(here, middle)) return undefined;
    for (const [rest, by] of [
      [left, -half],
      [right, half],
    ] as const) {
      for (let i = 0; i < here.x.length; i++) rest.x[i] = (here.x[i] as number) + by * (here.slope[i] as number);
      if (!this.rest(rest, middle + by)) return undefined;
    }
    const n = this.parts.nodes.length;
    const terms = new Float64Array((n + 1) * TERMS);
    const points = (of: (r: Rest) => number, slopeOf: (r: Rest) => number): ThreePoints => ({
      values: [of(left), of(here), of(right)],
      slopes: [half * slopeOf(left), half * slopeOf(here), half * slopeOf(right)],
    });
    for (let i = 0; i < n; i++)
      fitTerms(
        points(
          (r) => r.x[i] as number,
          (r) => r.slope[i] as number,
        ),
        terms,
        i * TERMS,
      );
    fitTerms(
      points(
        (r) => r.amps,
        (r) => r.siemens,
      ),
      terms,
      n * TERMS,
    );
    return [-0.75, -0.4, 0.4, 0.75].every((t) => this.isRestAt(terms, t, middle + t * half)) ? terms : undefined;
  }

  private set(state: number): void {
    const { contacts, outputs, part, parts, weights } = this;
    for (const [i, device] of contacts.entries()) {
      const { on, off } = (parts.contacts[i] as ContactSite).contact;
      part.setConductance(device, 1 / (digitOf(state, weights[i] as number, 2) === 1 ? on : off));
    }
    for (const [i, device] of outputs.entries()) part.setPull(device, digitOf(state, weights[contacts.length + i] as number, 3) as Pull);
  }

  /** From rest.x on, and into it; one step more than Newton's method asks for, since its answer is the ground of a polynomial. */
  private rest(rest: Rest, volts: number): boolean {
    const n = this.parts.nodes.length;
    const { x, slope } = rest;
    const { part, residual, magnitude, trial, toRail } = this;
    const { jacobian, linear } = this.solver;
    x[n] = volts;
    if (!newton(this.solver, x).ok) return false;
    part.evaluate(x, residual, magnitude, jacobian);
    const diagonal = slotOf(part.pattern, n, n);
    let siemens = (jacobian[diagonal] as number) - LEAKAGE_TO_GROUND;
    jacobian[diagonal] = HELD;
    if (linear.refactor(jacobian) >= 0) return false;
    residual[n] = 0;
    linear.solve(residual, trial);
    for (let i = 0; i < n; i++) x[i] = (x[i] as number) - (trial[i] as number);
    const coupling = (i: number): number => ((toRail[i] as number) < 0 ? 0 : (jacobian[toRail[i] as number] as number));
    for (let i = 0; i < n; i++) trial[i] = coupling(i);
    trial[n] = 0;
    this.addSkew((row, column, value) => {
      if (column === n && row < n) trial[row] = (trial[row] as number) - value;
    });
    linear.solve(trial, slope);
    slope[n] = 1;
    for (let i = 0; i < n; i++) siemens += coupling(i) * (1 - (slope[i] as number));
    this.addSkew((row, column, value) => {
      if (row === n && column <= n) siemens += value * (slope[column] as number);
    });
    part.evaluate(x, residual, magnitude, null);
    // every node leaks to ground; the rail is counted once, not with each block
    rest.amps = (residual[n] as number) - LEAKAGE_TO_GROUND * volts;
    rest.siemens = siemens;
    return true;
  }

  /** What transistors add to the equations' slopes. */
  private addSkew(each: (row: number, column: number, value: number) => void): void {
    const { skew } = this.part;
    for (let q = 0; skew && q < skew.values.length; q++) each(skew.rows[q] as number, skew.columns[q] as number, skew.values[q] as number);
  }

  /** Does the block rest where these polynomials say? */
  private isRestAt(terms: Float64Array, t: number, volts: number): boolean {
    const { part, residual, magnitude, trial } = this;
    const n = this.parts.nodes.length;
    for (let i = 0; i < n; i++) trial[i] = valueAt(terms, i * TERMS, t);
    trial[n] = volts;
    part.evaluate(trial, residual, magnitude, null);
    residual[n] = (residual[n] as number) - LEAKAGE_TO_GROUND * volts - valueAt(terms, n * TERMS, t);
    for (let i = 0; i <= n; i++)
      if (!(Math.abs(residual[i] as number) <= STRICT * RELATIVE_RESIDUAL * (magnitude[i] as number) + RESIDUAL_FLOOR)) return false;
    return true;
  }
}

/** By contact, then by output: what one step of it counts in the number of a block's state; then how many states there are. */
export function weightsOf({ contacts, outputs }: Pick<BlockParts, 'contacts' | 'outputs'>): number[] {
  const weights = [1];
  for (const radix of [...contacts.map(() => 2), ...outputs.map(() => 3)]) weights.push((weights.at(-1) as number) * radix);
  return weights;
}

const digitOf = (state: number, weight: number, radix: number): number => Math.floor(state / weight) % radix;

/** The equations of a block whose last node, the rail, keeps its voltage. */
function railHeld(part: Network, rail: number): Equations {
  const diagonal = slotOf(part.pattern, rail, rail);
  return {
    n: part.n,
    pattern: part.pattern,
    ...(part.skew ? { skew: part.skew } : {}),
    evaluate(x, residual, magnitude, jacobian) {
      part.evaluate(x, residual, magnitude, jacobian);
      residual[rail] = 0;
      if (jacobian) jacobian[diagonal] = HELD;
    },
    addMass: (values, scale) => part.addMass(values, scale),
    massTimes: (x, out) => part.massTimes(x, out),
  };
}
