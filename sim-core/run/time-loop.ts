/**
 * How time passes on a bench: hands, contacts, voltages and chips in one order of time.
 * Between events nothing costs anything: when everything rests, time jumps to what is due next.
 */

import type { ChipEvent } from '../parts/part.ts';
import { makeRandom } from '../units/random.ts';
import type { Options } from './api.ts';
import { type BuiltCircuit, conductanceOf, makeBuiltCircuit } from './built-circuit.ts';
import type { Circuit } from './circuit/circuit.ts';
import type { ChipListener } from './digital/chip-slot.ts';
import { contactBounce } from './digital/contact-bounce.ts';
import { type Alarm, Schedule } from './digital/schedule.ts';
import type { ContactMove, SwitchStates } from './digital/switch-state.ts';
import { startLoops } from './digital/undecided-loops.ts';
import { Onlookers } from './onlookers.ts';
import { type Breakdown, OverloadDamage } from './readout/overload-damage.ts';
import type { Oscillation } from './readout/readings.ts';
import { Restlessness } from './restlessness.ts';
import { SETTLE_LIMITS, TURNS_AMONG_TICKS, TURNS_IN_TIME, TURNS_TO_REST } from './settle-limits.ts';

/** While voltages are on their way, overloads are looked at no more often [s]; far below the times in which they do damage. */
const WEAR_LOOKS = 1e-4;

/** Changes that follow from each other at one moment; more than any chip makes. */
const MOST_JUMPS = 16;

/** What is waited for. */
interface Goal {
  /** [s]; Infinity: until everything rests */
  readonly until: number;
  readonly toRest: boolean;
  /** when something last happened [s] */
  lastEvent: number;
  /** turns since something else than a clock's tick was due */
  ticking: number;
}

/** broken: a part has been overloaded for too long. */
export class TimeLoop {
  private readonly options: Options;
  private readonly switches: SwitchStates;
  private readonly broken: (gone: Breakdown) => void;
  readonly schedule = new Schedule();
  readonly events: ChipEvent[] = [];
  readonly onlookers = new Onlookers(() => this.built);
  readonly overload: OverloadDamage;
  readonly listener: ChipListener;
  built: BuiltCircuit;
  /** [s] */
  time = 0;
  private dirty = false;
  /** what is at rest now has not been looked at for overloads yet */
  private stressUnread = true;
  /** something has changed since loops that wait for themselves were looked for */
  private loopsUnread = true;
  /** what kept the bench moving when it was given up */
  oscillations: readonly Oscillation[] = [];
  /** the last time that it was waited for it was left moving */
  private swings = false;
  /** whoever waits has had enough */
  private stopped = false;
  /** what happened last was begun by a clock, and so is all that follows: nobody waits for that */
  private byClock = false;
  private readonly restlessness = new Restlessness(() => this.built);

  constructor(first: Circuit, switches: SwitchStates, options: Options, broken: (gone: Breakdown) => void) {
    this.options = options;
    this.switches = switches;
    this.broken = broken;
    const random = makeRandom(options.seed);
    this.listener = {
      now: () => this.time,
      alarm: (slot, time, name, background) => this.schedule.alarm(time, slot, name, background || this.byClock),
      report: (event) => {
        this.events.push(event);
        this.onlookers.reported(event, this.time);
      },
      rebounds: (bounce) => (options.bounce && !options.still ? contactBounce(bounce, random) : []),
      moved: (device, from, to) => {
        this.built.solver.moved(device, from, to);
        this.dirty = true;
      },
    };
    this.built = makeBuiltCircuit(first, this.switches.switches, this.listener, this.onlookers.probes);
    this.overload = new OverloadDamage(() => this.built.circuit);
    // the bench as found: at rest since long ago
    this.built.solver.arrive();
    this.built.solver.look();
    this.built.runtime.begin(this.built.solver.x, this.built.solver.end);
    this.dirty = true;
  }

  get pending(): boolean {
    const due = this.schedule.next() < Number.POSITIVE_INFINITY || this.overload.due() < Number.POSITIVE_INFINITY;
    // between two edges of an oscillator nothing is due, but its voltages are on their way
    return due || (this.swings && !this.built.solver.resting());
  }

  /** a hand begins to do something */
  handBegins(): void {
    this.byClock = false;
    this.onlookers.handBegins();
  }

  /** the network's values have changed everywhere */
  touched(): void {
    this.built.solver.touched();
    this.dirty = true;
  }

  /** goes on with another wiring; `built` is it already */
  rewired(): void {
    this.onlookers.attach();
    // its marks have other numbers
    this.restlessness.begin();
    this.settleJump();
  }

  /** no turn follows of what is under way */
  stop(): void {
    this.stopped = true;
  }

  isStopped(): boolean {
    return this.stopped;
  }

  /** what begins now is not stopped any more */
  goOn(): void {
    this.stopped = false;
  }

  /** Runs to `until`, or to rest if `until` is Infinity; false if it did not come to rest, or did not get that far in `most` turns. Yields after each. */
  *pass(until: number, most = until === Number.POSITIVE_INFINITY ? TURNS_TO_REST : TURNS_IN_TIME): Generator<void, boolean> {
    const goal: Goal = { until, toRest: until === Number.POSITIVE_INFINITY, lastEvent: this.time, ticking: 0 };
    this.restlessness.begin();
    if (goal.toRest) {
      this.oscillations = [];
      this.swings = false;
    }
    for (let turns = 0; turns < most && !this.stopped; turns++) {
      this.takeDue(goal);
      if (goal.toRest && this.goesOnForEver(goal)) break;
      const arrived = this.turn(goal);
      if (arrived !== undefined) return arrived;
      yield;
    }
    // what was about to change has changed: no reading falls between the two
    for (let k = 0; k < MOST_JUMPS && this.dirty; k++) this.settleJump();
    if (goal.toRest || this.stopped) this.swings = true;
    if (goal.toRest && !this.stopped) this.oscillations = this.restlessness.oscillations();
    return false;
  }

  /** Some loop goes round and round, or clocks alone keep the last voltages from arriving. */
  private goesOnForEver(goal: Goal): boolean {
    goal.ticking = this.byClock && !this.schedule.foreground() ? goal.ticking + 1 : 0;
    return this.restlessness.isSure(this.time, this.dirty) || goal.ticking > TURNS_AMONG_TICKS;
  }

  private takeDue(goal: Goal): void {
    while (this.schedule.next() <= this.time) {
      const due = this.schedule.take();
      if (due) this.dispatch(due);
      goal.lastEvent = this.time;
    }
  }

  /** true: there; false: it will not get there; undefined: there is more to do */
  private turn(goal: Goal): boolean | undefined {
    const { until, toRest } = goal;
    const { solver } = this.built;
    if (this.dirty) {
      this.settleJump();
      return undefined;
    }
    if (solver.resting() && this.stressUnread && !this.options.still) {
      this.overload.settle(solver.x, this.time);
      this.stressUnread = false;
    }
    if (this.time >= this.overload.due()) {
      const gone = this.overload.take(this.time);
      if (gone) this.broken(gone);
      return undefined;
    }
    const horizon = Math.min(until, this.schedule.next(), toRest ? Number.POSITIVE_INFINITY : this.overload.due());
    if (solver.resting()) return this.jumpTo(horizon, goal);
    if (this.time >= until || (toRest && !this.schedule.foreground() && this.time - goal.lastEvent > SETTLE_LIMITS)) {
      this.onlookers.rested(this.time);
      return false;
    }
    this.step(horizon, goal);
    return undefined;
  }

  /** At rest: to what is due next. */
  private jumpTo(horizon: number, { until, toRest }: Goal): true | undefined {
    if (!this.schedule.foreground() && this.startUndecided()) return undefined;
    if (toRest && !this.schedule.foreground()) {
      this.onlookers.rested(this.time);
      return true;
    }
    this.time = horizon;
    return horizon === until && this.schedule.next() > until && this.overload.due() > until ? true : undefined;
  }

  /** Voltages are on their way: one step of it. */
  private step(horizon: number, goal: Goal): void {
    const { solver, runtime } = this.built;
    const most = goal.toRest ? Math.min(horizon - this.time, SETTLE_LIMITS) : horizon - this.time;
    const { moved, passed } = solver.step(most, this.onlookers.begin(this.time));
    this.time += moved;
    this.onlookers.stepped(moved);
    // floating-point time: a step to the horizon lands on it
    if (horizon - this.time < 1e-18) this.time = Math.max(this.time, horizon);
    if (this.time - this.overload.since() >= WEAR_LOOKS && !this.options.still) this.overload.follow(solver.x, this.time);
    if (passed.length > 0) {
      goal.lastEvent = this.time;
      runtime.deliver(this.counted(passed), solver.x, solver.end, undefined);
    }
    this.onlookers.note(this.time);
  }

  /** Values of the network have changed at this moment. */
  private settleJump(): void {
    const { circuit, solver, floatingInputs, unknownOutputs, runtime } = this.built;
    this.dirty = false;
    this.stressUnread = true;
    this.loopsUnread = true;
    if (!this.byClock) this.restlessness.jumped(this.time);
    this.overload.leave(this.time);
    this.onlookers.note(this.time);
    if (this.options.still) solver.arrive();
    else solver.jump();
    this.onlookers.jumped(this.time);
    floatingInputs.changed();
    unknownOutputs.changed();
    runtime.deliver(this.counted(solver.look()), solver.x, solver.end, circuit.partition.takeDirty());
    this.onlookers.note(this.time);
  }

  private counted(passed: Int32Array): Int32Array {
    return this.restlessness.count(passed, this.time, this.schedule.foreground(), this.byClock);
  }

  /** What waits for itself is set going, once for each time that something has changed. */
  private startUndecided(): boolean {
    if (!this.loopsUnread) return false;
    this.loopsUnread = startLoops(this.built, this.time);
    return this.loopsUnread;
  }

  private dispatch(due: ContactMove | Readonly<Alarm>): void {
    this.byClock = 'alarm' in due && due.background;
    if ('hand' in due) {
      if (this.switches.isLast(due)) this.moveContact(due);
    } else this.built.runtime.alarm(due.slot, due.alarm);
  }

  private moveContact({ hand, pole, closed }: ContactMove): void {
    const { network, contactsById } = this.built.circuit;
    const site = contactsById.get(hand)?.[pole];
    if (!site) return;
    const to = conductanceOf(site, closed);
    this.listener.moved(site.device, network.conductance(site.device), to);
    network.setConductance(site.device, to);
    this.restlessness.contactMoved();
  }
}
