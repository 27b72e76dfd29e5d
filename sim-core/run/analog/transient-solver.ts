/** The analogue half of a running bench: node voltages now, where they are heading, steps of time between, and the exact moment a watched voltage passes its mark. */

import { GROUND, type Network, type Node } from '../../devices/network.ts';
import type { Device } from '../../devices/primitives.ts';
import type { Decay } from '../../solve/decay.ts';
import { nextSize } from '../../solve/rosenbrock.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { Partition } from '../circuit/partition.ts';
import { ActiveSubcircuit } from './active-subcircuit.ts';
import { type Landing, land } from './landing.ts';
import { RestByBlocks } from './rest-by-blocks.ts';
import { ThresholdCrossings, type Watches } from './threshold-crossings.ts';

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
/** While a rail may move, a way in closed form is gone in steps that grow by this factor; who looks sees as many moments of a longer step. Our choice. */
const GROWTH = 1.2;
/** A step in closed form that may hide something is shortened by this factor. */
const SHORTER = 8;
/** Slow ways are gone in steps of this part of their time constant, and of this time [s] at least: overloads are looked at between them. */
const SLOW = 0.25;
const SLOW_STEP = 1e-4;
/** No step is shorter [s]; what can't be stepped even then is put to rest. */
const SHORTEST = 1e-17;
/** After so many rests of the whole network the bench's blocks are looked at: it will come to many more. */
const OFTEN = 100;
/** Islands kept for the next time the same blocks move. */
const MOST_ISLANDS = 300;
const NONE: Int32Array = new Int32Array(0);

type Look = (moved: number, x: Float64Array) => void;

/** from: voltages to begin with, if the bench had some before. */
export class TransientSolver {
  private readonly network: Network;
  private readonly blocks: Partition;
  private readonly wires: readonly Device[];
  private readonly watches: Watches;
  private readonly n: number;
  /** node voltages [V] now; the last place is ground */
  readonly x: Float64Array;
  /** node voltages at which everything would rest, those that are solved for */
  readonly end: Float64Array;
  private readonly trial: Float64Array;
  private readonly between: Float64Array;
  private readonly unfolded: readonly number[];
  private readonly rails: number[];
  private readonly circuit: Circuit;
  private readonly whole: ActiveSubcircuit;
  private byBlocks: RestByBlocks | undefined;
  /** how often the whole network has been put to rest since its blocks were last looked at */
  private rested = 0;
  private judges = false;
  private readonly crossings: ThresholdCrossings;
  private readonly islands = new Map<string, { island: ActiveSubcircuit; watched: Int32Array }>();
  private moving: { island: ActiveSubcircuit; watched: Int32Array } | undefined;
  private everything = false;
  private lostNode: number | undefined;
  private size: number = FIRST_STEP;
  private readonly supply: Device | undefined;
  private readonly another: Device | undefined;
  private readonly plus: number;
  private readonly minus: number;

  constructor(circuit: Circuit, watches: Watches, from?: Float64Array) {
    const { network, partition, wires, supplies } = circuit;
    this.circuit = circuit;
    this.network = network;
    this.blocks = partition;
    this.wires = wires;
    this.watches = watches;
    this.n = network.n;
    this.x = new Float64Array(this.n + 1);
    if (from) this.x.set(from);
    this.end = this.x.slice();
    this.trial = new Float64Array(this.n + 1);
    this.between = new Float64Array(this.n + 1);
    this.unfolded = network.unfolded;
    this.rails = this.unfolded.filter((i) => this.blocks.of[i] === -1);
    this.whole = new ActiveSubcircuit(this.network, this.unfolded);
    this.crossings = new ThresholdCrossings(this.watches, this.n);
    const [supply, another] = supplies.map((s) => s.device);
    this.supply = supply;
    this.another = another;
    const [plus, minus] = this.supply ? this.network.nodesOf(this.supply) : [GROUND, GROUND];
    this.plus = plus;
    this.minus = minus;
  }

  /** set while the solver has no operating point: the node it was worst at */
  lost(): number | undefined {
    return this.lostNode;
  }

  resting(): boolean {
    return this.moving === undefined;
  }

  /** makes x whole for looking at: nodes that are not solved for are filled in */
  complete(): void {
    this.network.complete(this.x);
  }

  /** a device goes from one state to another; before it does, unless that says nothing of its voltages */
  moved(device: Device, from: number, to: number): void {
    this.byBlocks?.moves(device);
    if (from !== to) this.blocks.moved(device, from, to, this.byBlocks ? undefined : this.end);
  }

  /** the network's values have changed everywhere */
  touched(): void {
    this.blocks.markAllDirty();
    this.byBlocks = undefined;
  }

  /** from now on it is the judge of what was found by blocks: every rest is that of the whole network */
  solveWhole(): void {
    this.judges = true;
    this.byBlocks = undefined;
  }

  /** values of the network have changed: a new rest is found, and everything without charge follows at once */
  jump(): void {
    if (!this.findRest()) {
      // nowhere to rest: what could be found is shown, and a finding says so
      this.x.set(this.end);
      this.moving = undefined;
      return;
    }
    const all = this.railsMove();
    const active = this.findActive();
    this.size = FIRST_STEP;
    this.moving = this.islandOf(active, all);
    if (!this.moving.island.jump(this.x)) this.x.set(this.end);
    if (!all && this.railsMove()) this.moveEverything(active);
    this.arriveIfNear();
  }

  /** from x, and into it: where the network as it is set now would rest; false if that was not found */
  restFor(to: Float64Array): boolean {
    const solved = this.whole.rest(to);
    this.network.complete(to);
    return solved.ok;
  }

  /** values of the network have changed: go to the new rest without asking for the way */
  arrive(): void {
    this.findRest();
    this.moving = undefined;
    this.x.set(this.end);
  }

  /**
   * Moves on by at most `most` [s], stops at the first watch that passes its mark; returns the time moved and what passed, until the next step or look.
   * look: is shown moments between, where a step is long: time since its beginning [s], and voltages.
   */
  step(most: number, look?: Look): Landing {
    if (!this.moving) return { moved: most, passed: NONE };
    const { island, watched } = this.moving;
    // two marks can be passed at one moment: the second is told before time goes on
    const late = this.crossings.passing(this.x, watched);
    if (late.length > 0) return { moved: 0, passed: this.crossings.cross(late) };
    island.from(this.x);
    this.trial.set(this.x);
    const way = island.way();
    if (way) this.size = this.reach(way, island);
    for (;;) {
      const h = Math.min(this.size, most);
      const error = island.attempt(h, this.trial);
      if (error > 1 && h > SHORTEST) {
        this.size = Math.max(nextSize(h, Math.min(error, 1e6)), SHORTEST);
        continue;
      }
      if (error === Number.POSITIVE_INFINITY) {
        this.moving = undefined;
        this.x.set(this.end);
        return { moved: 0, passed: this.crossings.cross(this.crossings.passing(this.x, this.crossings.every)) };
      }
      if (way && h > SHORTEST && this.crossings.mayPassTwice(this.x, this.trial, watched, island, h)) {
        this.size = h / SHORTER;
        continue;
      }
      const crossing = this.crossings.passing(this.trial, watched);
      let landed: Landing = { moved: h, passed: NONE };
      if (crossing.length > 0) landed = land({ crossings: this.crossings, island, x: this.x, trial: this.trial, watched }, crossing, h);
      else if (way) this.size = Math.max(GROWTH * h, FIRST_STEP);
      else if (h === this.size || error > 0.5) this.size = Math.max(nextSize(h, Math.max(error, 1e-6)), SHORTEST);
      if (way && look) this.showBetween(island, landed.moved, look);
      this.x.set(this.trial);
      this.crossings.cross(landed.passed);
      if (landed.passed.length === 0) this.arriveIfNear();
      if (this.moving && !this.everything && this.railsMove()) this.moveEverything(new Set());
      return landed;
    }
  }

  private showBetween(island: ActiveSubcircuit, moved: number, look: Look): void {
    this.between.set(this.x);
    for (let at = FIRST_STEP; at < moved / GROWTH; at *= GROWTH) {
      island.attempt(at, this.between);
      this.network.complete(this.between);
      look(at, this.between);
    }
  }

  /** How far a way in closed form is gone at once [s]. */
  private reach(way: Decay, island: ActiveSubcircuit): number {
    const arrival = way.arrival(0.5 * ARRIVED);
    const mayMove = !this.everything && this.rails.some((i) => way.furthest(island.row(i)) > RAIL_STILL);
    return Math.min(arrival, mayMove ? this.size : Math.max(SLOW_STEP, SLOW * way.slowest()));
  }

  /** which watches are now on another side than they were */
  look(): Int32Array {
    return this.crossings.cross(this.crossings.passing(this.x, this.crossings.every));
  }

  /**
   * From where the rest is looked for: the only supply gives way to what its circuit will carry, and everything leans on it in proportion. It changes no
   * answer; so near, one step of Newton's method is nearly always enough.
   */
  private lean(): void {
    const volts = this.plus === GROUND ? 0 : (this.end[this.plus] as number);
    const amps = this.blocks.takeCarried();
    if (!this.supply || this.another || this.minus !== GROUND || volts < 1) return;
    const share = 1 - (amps * this.network.supplyOf(this.supply).ohms) / volts;
    if (Math.abs(share - 1) < LEANING) for (let i = 0; i < this.n; i++) this.end[i] = share * (this.end[i] as number);
  }

  private findRest(): boolean {
    const found = this.byBlocks?.find(this.end);
    if (found === 'sure') {
      this.lostNode = undefined;
      return true;
    }
    if (!found) this.lean();
    const solved = this.whole.rest(this.end);
    if (found && !(found === 'unsure' && solved.ok && solved.iterations === 0)) this.byBlocks = undefined;
    this.rested += 1;
    if (this.rested === OFTEN) {
      this.rested = 0;
      if (!this.byBlocks && !this.judges && solved.ok) this.byBlocks = RestByBlocks.of(this.circuit, this.end);
    }
    this.lostNode = solved.ok ? undefined : this.whole.nodes[solved.worstRow];
    return solved.ok;
  }

  private railsMove(): boolean {
    return this.rails.some((i) => Math.abs((this.x[i] as number) - (this.end[i] as number)) > RAIL_STILL);
  }

  /** The island of these blocks, or of everything. */
  private islandOf(active: ReadonlySet<number>, all: boolean): { island: ActiveSubcircuit; watched: Int32Array } {
    const key = all ? 'all' : [...active].sort((a, b) => a - b).join();
    let found = this.islands.get(key);
    if (!found) {
      const inner = this.unfolded.filter((i) => this.blocks.of[i] !== -1 && (all || active.has(this.blocks.of[i] as number)));
      const island = new ActiveSubcircuit(this.network, [...inner, ...this.rails]);
      const within = new Set<Node>(island.nodes);
      found = {
        island,
        // what a watch is a part of counts too, unless it is a rail, which every island has
        watched: this.crossings.voltagesOf(
          ({ a, b, c }) => within.has(a) || within.has(b) || (c !== undefined && this.blocks.of[c] !== -1 && within.has(c)),
        ),
      };
      if (this.islands.size >= MOST_ISLANDS) this.islands.clear();
      this.islands.set(key, found);
    }
    found.island.follow(this.end);
    this.everything = all;
    return found;
  }

  /** Blocks that are away from their rest; the others are put there. */
  private findActive(): ReadonlySet<number> {
    const active = new Set<number>();
    const pulled = this.blocks.takePulled();
    // an edge that follows at once takes no current on its way, and dips no rail: with real wiring it is gone through
    const atOnce = (block: number) => this.wires.length === 0 && pulled.has(block);
    // a node that is not solved for is known only once it has been looked at, and looking must change nothing
    for (const i of this.unfolded) {
      const block = this.blocks.of[i] as number;
      if (block !== -1 && !atOnce(block) && Math.abs((this.x[i] as number) - (this.end[i] as number)) > QUIET) active.add(block);
    }
    for (let i = 0; i < this.n; i++)
      if (this.blocks.of[i] !== -1 && !active.has(this.blocks.of[i] as number)) this.x[i] = this.end[i] as number;
    return active;
  }

  private near(nodes: readonly Node[]): boolean {
    for (const i of nodes) if (Math.abs((this.x[i] as number) - (this.end[i] as number)) > ARRIVED) return false;
    return true;
  }

  private arriveIfNear(): void {
    if (this.moving && !this.near(this.moving.island.nodes)) return;
    this.moving = undefined;
    this.x.set(this.end);
  }

  /** The rails have moved further than what lies still can ignore: it moves too, from a moment at which all its voltages fit together. */
  private moveEverything(active: ReadonlySet<number>): void {
    this.moving = this.islandOf(active, true);
    this.moving.island.jump(this.x);
    this.size = FIRST_STEP;
  }
}
