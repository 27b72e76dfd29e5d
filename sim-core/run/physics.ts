/** The analogue half of a running bench: node voltages now, where they are heading, steps of time between, and the exact moment a watched voltage passes its mark. */
import { GROUND, type Network, type Node } from '../devices/network.ts';
import type { Equations } from '../solve/equations.ts';
import { makeNewton, newton } from '../solve/newton.ts';
import { linearise, makeRosenbrock, nextSize, tryStep } from '../solve/rosenbrock.ts';

/** A voltage that is watched: node a against node b, passing `mark` [V]. */
export interface Watch {
  readonly a: Node;
  readonly b: Node;
  readonly mark: number;
  /** which side it was last seen on; changed only by `step` and `look` */
  above: boolean;
}

/** Error allowed in one step: relative, and in V. */
const RELATIVE = 1e-6;
const ABSOLUTE = 1e-6;
/** A node this near to where it is heading [V] has arrived. */
const ARRIVED = 1e-5;
/** A mark has been passed when the voltage is this far beyond it [V]. */
const PASSED = 1e-9;
/** Time in which capacitors hold while everything else follows a jump [s]. */
const INSTANT = 1e-15;
/** First step after a jump [s]: well below the picoseconds of a closing contact. */
const FIRST_STEP = 1e-13;

export interface Physics {
  /** node voltages [V] now; the last place is ground */
  readonly x: Float64Array;
  /** node voltages at which everything would rest */
  readonly end: Float64Array;
  /** set while the solver has no operating point: the node it was worst at */
  readonly lost: number | undefined;
  /** values of the network have changed: everything without charge follows at once, and a new rest is found */
  jump(): void;
  /** no capacitor: go to where it rests */
  arrive(): void;
  readonly resting: boolean;
  /** moves on by at most `most` [s], stops at the first watch that passes its mark; returns the time moved and what passed */
  step(most: number): { readonly moved: number; readonly passed: readonly number[] };
  /** which watches are now on another side than they were */
  look(): readonly number[];
}

export function makePhysics(network: Network, watches: readonly Watch[], from?: Float64Array): Physics {
  const { n } = network;
  const x = new Float64Array(n + 1);
  if (from) x.set(from);
  const end = x.slice();
  const held = x.slice();
  const atRest = makeNewton(network);
  const atJump = makeNewton(holdingCharge(network, held));
  const inTime = makeRosenbrock(network, atJump.factors);
  const trial = new Float64Array(n + 1);
  let lost: number | undefined;
  let size = FIRST_STEP;
  let resting = true;

  const volts = (v: Float64Array, w: Watch) => (v[w.a === GROUND ? n : w.a] as number) - (v[w.b === GROUND ? n : w.b] as number);
  const passes = (v: Float64Array, w: Watch) => (w.above ? volts(v, w) < w.mark - PASSED : volts(v, w) > w.mark + PASSED);
  const passing = (v: Float64Array): number[] => {
    const found: number[] = [];
    for (let i = 0; i < watches.length; i++) if (passes(v, watches[i] as Watch)) found.push(i);
    return found;
  };
  const near = (): boolean => {
    for (let i = 0; i < n; i++) if (Math.abs((x[i] as number) - (end[i] as number)) > ARRIVED) return false;
    return true;
  };
  const attempt = (h: number) => tryStep(inTime, x, h, RELATIVE, ABSOLUTE, trial);

  /** Finds the step that ends where the first of these watches passes; `trial` then holds that moment. Illinois variant of false position. */
  const landOn = (crossing: readonly number[], h: number): { moved: number; passed: number[] } => {
    let watch = watches[crossing[0] as number] as Watch;
    let reach = h;
    for (const i of crossing) {
      const w = watches[i] as Watch;
      const guess = (h * (w.mark - volts(x, w))) / (volts(trial, w) - volts(x, w));
      if (guess < reach) {
        reach = guess;
        watch = w;
      }
    }
    const beyond = (v: Float64Array) => (watch.above ? watch.mark - volts(v, watch) : volts(v, watch) - watch.mark);
    let low = 0;
    let fLow = beyond(x);
    let high = h;
    let fHigh = beyond(trial);
    for (let round = 0; round < 60 && high - low > 1e-12 * h; round++) {
      const middle = Math.min(high - 1e-3 * (high - low), Math.max(low + 1e-3 * (high - low), low - (fLow * (high - low)) / (fHigh - fLow)));
      attempt(middle);
      const f = beyond(trial);
      if (f > 0) {
        high = middle;
        if (f < PASSED) break;
        fHigh = f;
        fLow /= 2;
      } else {
        low = middle;
        fLow = f;
        fHigh /= 2;
      }
    }
    attempt(high);
    const index = watches.indexOf(watch);
    const earlier = passing(trial).filter((i) => i !== index);
    return earlier.length > 0 && high < h ? landOn([...earlier], high) : { moved: high, passed: [index] };
  };

  return {
    x,
    end,
    get lost() {
      return lost;
    },
    get resting() {
      return resting;
    },
    jump() {
      const solved = newton(atRest, end);
      lost = solved.ok ? undefined : solved.worstRow;
      held.set(x);
      const jumped = newton(atJump, x);
      if (!jumped.ok && solved.ok) x.set(end);
      size = FIRST_STEP;
      resting = near();
      if (resting) x.set(end);
    },
    arrive() {
      x.set(end);
      resting = true;
    },
    step(most) {
      linearise(inTime, x);
      for (;;) {
        const h = Math.min(size, most);
        const error = attempt(h);
        if (error > 1 && h > 1e-17) {
          size = nextSize(h, Math.min(error, 1e6));
          continue;
        }
        const crossing = passing(trial);
        let moved = h;
        let passed: number[] = [];
        if (crossing.length > 0) ({ moved, passed } = landOn(crossing, h));
        else if (h === size) size = nextSize(h, Math.max(error, 1e-6));
        x.set(trial);
        for (const i of passed) {
          const w = watches[i] as Watch;
          w.above = !w.above;
        }
        resting = near() && passed.length === 0;
        if (resting) x.set(end);
        return { moved, passed };
      }
    },
    look() {
      const found = passing(x);
      for (const i of found) {
        const w = watches[i] as Watch;
        w.above = !w.above;
      }
      return found;
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
