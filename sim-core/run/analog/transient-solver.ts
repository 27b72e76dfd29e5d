/** The analogue half of a running bench: node voltages now, where they are heading, steps of time between, and the exact moment a watched voltage passes its mark. */
import { GROUND, type Node } from '../../devices/network.ts';
import { nextSize } from '../../solve/rosenbrock.ts';
import type { Circuit } from '../circuit/circuit.ts';
import { type ActiveSubcircuit, makeActiveSubcircuit } from './active-subcircuit.ts';
import { makeThresholdCrossings, PASSED, type Watches } from './threshold-crossings.ts';

/** A node this near to where it is heading [V] has arrived. */
const ARRIVED = 1e-5;
/** A block that has to move by less than this [V] follows the rails at once, without steps. */
const QUIET = 5e-3;
/** While a rail is further than this from its rest [V], everything moves with it. */
const RAIL_STILL = 20e-3;
/** A supply that is expected to give way by a larger part of its voltage is not guessed at. */
const LEANING = 0.05;
/** First step after a jump [s]: well below the picoseconds of a closing contact. */
const FIRST_STEP = 1e-13;
/** No step is shorter [s]; what can't be stepped even then is put to rest. */
const SHORTEST = 1e-17;
/** Islands kept for the next time the same blocks move. */
const MOST_ISLANDS = 300;
const NONE: Int32Array = new Int32Array(0);

export interface TransientSolver {
  /** node voltages [V] now; the last place is ground */
  readonly x: Float64Array;
  /** node voltages at which everything would rest, those that are solved for */
  readonly end: Float64Array;
  /** set while the solver has no operating point: the node it was worst at */
  lost(): number | undefined;
  resting(): boolean;
  /** makes x whole for looking at: nodes that are not solved for are filled in */
  complete(): void;
  /** values of the network have changed: a new rest is found, and everything without charge follows at once */
  jump(): void;
  /** from x, and into it: where the network as it is set now would rest; false if that was not found */
  restFor(x: Float64Array): boolean;
  /** values of the network have changed: go to the new rest without asking for the way */
  arrive(): void;
  /** moves on by at most `most` [s], stops at the first watch that passes its mark; returns the time moved and what passed, until the next step or look */
  step(most: number): { readonly moved: number; readonly passed: Int32Array };
  /** which watches are now on another side than they were */
  look(): Int32Array;
}

/** from: voltages to begin with, if the bench had some before. */
export function makeTransientSolver({ network, blocks, wires, supplies }: Circuit, watches: Watches, from?: Float64Array): TransientSolver {
  const { n } = network;
  const x = new Float64Array(n + 1);
  if (from) x.set(from);
  const end = x.slice();
  const trial = new Float64Array(n + 1);
  const { unfolded } = network;
  const rails = unfolded.filter((i) => blocks.of[i] === -1);
  const whole = makeActiveSubcircuit(network, unfolded);
  const { over, passing, cross, every, voltagesOf } = makeThresholdCrossings(watches, n);
  const islands = new Map<string, { island: ActiveSubcircuit; watched: Int32Array }>();
  let moving: { island: ActiveSubcircuit; watched: Int32Array } | undefined;
  let everything = false;
  let lost: number | undefined;
  let size = FIRST_STEP;

  const [supply, another] = supplies.map((s) => s.device);
  const [plus, minus] = supply ? network.nodesOf(supply) : [GROUND, GROUND];
  /**
   * From where the rest is looked for: the only supply gives way to what its circuit will carry, and everything leans on it in proportion. It changes no
   * answer; so near, one step of Newton's method is nearly always enough.
   */
  const lean = () => {
    const volts = plus === GROUND ? 0 : (end[plus] as number);
    const amps = blocks.takeCarried();
    if (!supply || another || minus !== GROUND || volts < 1) return;
    const share = 1 - (amps * network.supplyOf(supply).ohms) / volts;
    if (Math.abs(share - 1) < LEANING) for (let i = 0; i < n; i++) end[i] = share * (end[i] as number);
  };

  const findRest = (): boolean => {
    lean();
    const solved = whole.rest(end);
    lost = solved.ok ? undefined : whole.nodes[solved.worstRow];
    return solved.ok;
  };
  const railsMove = () => rails.some((i) => Math.abs((x[i] as number) - (end[i] as number)) > RAIL_STILL);

  /** The island of these blocks, or of everything. */
  const islandOf = (active: ReadonlySet<number>, all: boolean) => {
    const key = all ? 'all' : [...active].sort((a, b) => a - b).join();
    let found = islands.get(key);
    if (!found) {
      const inner = unfolded.filter((i) => blocks.of[i] !== -1 && (all || active.has(blocks.of[i] as number)));
      const island = makeActiveSubcircuit(network, [...inner, ...rails]);
      const within = new Set<Node>(island.nodes);
      found = {
        island,
        // what a watch is a part of counts too, unless it is a rail, which every island has
        watched: voltagesOf(({ a, b, c }) => within.has(a) || within.has(b) || (c !== undefined && blocks.of[c] !== -1 && within.has(c))),
      };
      if (islands.size >= MOST_ISLANDS) islands.clear();
      islands.set(key, found);
    }
    found.island.follow(end);
    everything = all;
    return found;
  };

  /** Blocks that are away from their rest; the others are put there. */
  const findActive = (): ReadonlySet<number> => {
    const active = new Set<number>();
    const pulled = blocks.takePulled();
    // an edge that follows at once takes no current on its way, and dips no rail: with real wiring it is gone through
    const atOnce = (block: number) => wires.length === 0 && pulled.has(block);
    // a node that is not solved for is known only once it has been looked at, and looking must change nothing
    for (const i of unfolded) {
      const block = blocks.of[i] as number;
      if (block !== -1 && !atOnce(block) && Math.abs((x[i] as number) - (end[i] as number)) > QUIET) active.add(block);
    }
    for (let i = 0; i < n; i++) if (blocks.of[i] !== -1 && !active.has(blocks.of[i] as number)) x[i] = end[i] as number;
    return active;
  };

  const near = (nodes: readonly Node[]): boolean => {
    for (const i of nodes) if (Math.abs((x[i] as number) - (end[i] as number)) > ARRIVED) return false;
    return true;
  };
  const arriveIfNear = () => {
    if (moving && !near(moving.island.nodes)) return;
    moving = undefined;
    x.set(end);
  };

  /** Finds the step that ends where the first of these watches passes; `trial` then holds that moment. Illinois variant of false position. */
  const landOn = (
    island: ActiveSubcircuit,
    watched: Int32Array,
    crossing: Int32Array,
    h: number,
  ): { moved: number; passed: Int32Array } => {
    let first = crossing[0] as number;
    let soonest = Number.POSITIVE_INFINITY;
    for (const i of crossing) {
      const guess = over(x, i) / (over(x, i) - over(trial, i));
      if (guess < soonest) {
        soonest = guess;
        first = i;
      }
    }
    const beyond = (v: Float64Array) => (watches.above[first] === 1 ? -over(v, first) : over(v, first));
    let low = 0;
    let fLow = beyond(x);
    let high = h;
    let fHigh = beyond(trial);
    while (fHigh > PASSED && high - low > 1e-12 * h) {
      const cut = low - (fLow * (high - low)) / (fHigh - fLow);
      const middle = Math.min(high - 1e-3 * (high - low), Math.max(low + 1e-3 * (high - low), cut));
      island.attempt(middle, trial);
      const f = beyond(trial);
      if (f > 0) {
        high = middle;
        fHigh = f;
        fLow /= 2;
      } else {
        low = middle;
        fLow = f;
        fHigh /= 2;
      }
    }
    island.attempt(high, trial);
    const earlier = passing(trial, watched).filter((i) => i !== first);
    return earlier.length > 0 && high < h ? landOn(island, watched, earlier, high) : { moved: high, passed: Int32Array.of(first) };
  };

  /** The rails have moved further than what lies still can ignore: it moves too, from a moment at which all its voltages fit together. */
  const moveEverything = (active: ReadonlySet<number>) => {
    moving = islandOf(active, true);
    moving.island.jump(x);
    size = FIRST_STEP;
  };

  return {
    x,
    end,
    lost() {
      return lost;
    },
    resting() {
      return moving === undefined;
    },
    complete: () => network.complete(x),
    jump() {
      if (!findRest()) {
        // nowhere to rest: what could be found is shown, and a finding says so
        x.set(end);
        moving = undefined;
        return;
      }
      const all = railsMove();
      const active = findActive();
      size = FIRST_STEP;
      moving = islandOf(active, all);
      if (!moving.island.jump(x)) x.set(end);
      if (!all && railsMove()) moveEverything(active);
      arriveIfNear();
    },
    restFor(to) {
      const solved = whole.rest(to);
      network.complete(to);
      return solved.ok;
    },
    arrive() {
      findRest();
      moving = undefined;
      x.set(end);
    },
    step(most) {
      if (!moving) return { moved: most, passed: NONE };
      const { island, watched } = moving;
      // two marks can be passed at one moment: the second is told before time goes on
      const late = passing(x, watched);
      if (late.length > 0) return { moved: 0, passed: cross(late) };
      island.from(x);
      trial.set(x);
      for (;;) {
        const h = Math.min(size, most);
        const error = island.attempt(h, trial);
        if (error > 1 && h > SHORTEST) {
          size = Math.max(nextSize(h, Math.min(error, 1e6)), SHORTEST);
          continue;
        }
        if (error === Number.POSITIVE_INFINITY) {
          moving = undefined;
          x.set(end);
          return { moved: 0, passed: cross(passing(x, every)) };
        }
        const crossing = passing(trial, watched);
        let landed: { readonly moved: number; readonly passed: Int32Array } = { moved: h, passed: NONE };
        if (crossing.length > 0) landed = landOn(island, watched, crossing, h);
        else if (h === size || error > 0.5) size = Math.max(nextSize(h, Math.max(error, 1e-6)), SHORTEST);
        x.set(trial);
        cross(landed.passed);
        if (landed.passed.length === 0) arriveIfNear();
        if (moving && !everything && railsMove()) moveEverything(new Set());
        return landed;
      }
    },
    look: () => cross(passing(x, every)),
  };
}
