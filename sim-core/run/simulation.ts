/**
 * A running bench: hands, contacts, voltages and chips in one order of time.
 * Between events nothing costs anything: when everything rests, time jumps to what is due next.
 */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanWire } from '../../shared/plan.ts';
import { apply, type Change } from '../document/changes.ts';
import type { ChipEvent } from '../parts/part.ts';
import { makeRandom } from '../units/random.ts';
import type { Action } from './action.ts';
import type { TransientSolver } from './analog/transient-solver.ts';
import type { Options, Simulation } from './api.ts';
import { type BuiltCircuit, conductanceOf, makeBuiltCircuit } from './built-circuit.ts';
import { buildCircuit, type Circuit } from './circuit/circuit.ts';
import type { ContactSite, SupplySite } from './circuit/sites.ts';
import type { ChipListener } from './digital/chip-runtime.ts';
import { contactBounce } from './digital/contact-bounce.ts';
import { type Alarm, Schedule } from './digital/schedule.ts';
import { type ContactMove, SwitchStates } from './digital/switch-state.ts';
import { startLoop } from './digital/undecided-loops.ts';
import { measure, measureBrightness } from './readout/measure.ts';
import { OverloadDamage } from './readout/overload-damage.ts';
import { Probes } from './readout/probes.ts';
import type { Readings } from './readout/readings.ts';
import { Recorder, type Trace } from './readout/recorder.ts';
import { givenBytes, isWiredAlike, restarts } from './rebuild.ts';
import { SETTLE_LIMITS, SettleLimits, TURNS_IN_TIME, TURNS_TO_REST } from './settle-limits.ts';
import { planOf } from './snapshot.ts';

/** While voltages are on their way, overloads are looked at no more often [s]; far below the times in which they do damage. */
const WEAR_LOOKS = 1e-4;
/** How long a hand takes from one hole to another, or holds a button [s]. */
const MOVE_SECONDS = 0.3;

const DEFAULTS: Options = { drive: undefined, bounce: true, seed: 1, still: false };

/** A bench as the plan says it stands, at rest; or the sentence that says why this plan cannot be built. Fails with `plan/…`. */
export function simulate(plan: Plan, options: Partial<Options> = {}): Outcome<Simulation> {
  const chosen = { ...DEFAULTS, ...options };
  const circuit = buildCircuit(plan, chosen.drive, chosen.overrides);
  return circuit.ok ? done(new RunningBench(circuit.value, chosen)) : circuit;
}

class RunningBench implements Simulation {
  private readonly options: Options;
  private readonly schedule = new Schedule();
  private readonly random: () => number;
  readonly events: ChipEvent[] = [];
  private time = 0;
  private dirty = false;
  /** what is at rest now has not been looked at for overloads yet */
  private stressUnread = true;
  /** something has changed since loops that wait for themselves were looked for */
  private loopsUnread = true;
  /** chips that were still answering each other when the bench was given up */
  private endless: readonly string[] = [];
  /** the last time that it was waited for some level passed its mark again and again */
  private swings = false;
  /** what happened last was begun by a clock, and so is all that follows: nobody waits for that */
  private byClock = false;
  private readonly settleLimits = new SettleLimits();
  private readonly listener: ChipListener;
  /** while somebody looks at pins in time */
  private recorder: Recorder | undefined;
  private readonly probes = new Probes();
  /** of now; the circuit's own plan keeps where the switches stood when it was built */
  private readonly switches: SwitchStates;
  private built: BuiltCircuit;
  private readonly overload: OverloadDamage;

  constructor(first: Circuit, options: Options) {
    this.options = options;
    this.random = makeRandom(this.options.seed);
    this.listener = {
      now: () => this.time,
      alarm: (slot, time, name, background) => this.schedule.alarm(time, slot, name, background || this.byClock),
      report: (event) => {
        this.events.push(event);
        this.recorder?.reported(event, this.time);
      },
      moved: (device, from, to) => {
        if (from !== to) this.built.circuit.partition.moved(device, from, to, this.built.solver.end);
        this.dirty = true;
      },
    };
    this.switches = new SwitchStates(first.plan.switches);
    this.built = makeBuiltCircuit(first, this.switches.switches, this.listener, this.probes);
    this.overload = new OverloadDamage(() => this.built.circuit);
    // the bench as found: at rest since long ago
    this.built.solver.arrive();
    this.built.solver.look();
    this.built.runtime.begin(this.built.solver.x, this.built.solver.end);
    this.dirty = true;
    this.advance(Number.POSITIVE_INFINITY);
  }

  get circuit(): Circuit {
    return this.built.circuit;
  }

  get now(): number {
    return this.time;
  }

  act(act: Action): Outcome<void> {
    const begun = this.begin(act);
    if (begun.ok) this.advance(Number.POSITIVE_INFINITY);
    return begun;
  }

  wait(seconds: number): boolean {
    const until = this.time + Math.max(0, seconds);
    this.advance(until);
    return this.time >= until;
  }

  rest(): boolean {
    return this.advance(Number.POSITIVE_INFINITY);
  }

  get pending(): boolean {
    const due = this.schedule.next() < Number.POSITIVE_INFINITY || this.overload.due() < Number.POSITIVE_INFINITY;
    // between two edges of an oscillator nothing is due, but its voltages are on their way
    return due || (this.swings && !this.built.solver.resting());
  }

  brightnesses(into: Uint8Array): void {
    measureBrightness(this.built, into);
  }

  readings(): Readings {
    return { ...measure(this.built, this.switches.switches, this.time), ...(this.endless.length > 0 ? { restless: this.endless } : {}) };
  }

  watch(parts: readonly string[]): void {
    if (parts.length === 0) this.recorder = undefined;
    else {
      if (!this.recorder) {
        this.recorder = new Recorder();
        this.recorder.attach(this.built.runtime);
      }
      this.recorder.watch(parts);
      this.noteTime(this.built.solver);
    }
  }

  get traces(): readonly Trace[] {
    return this.recorder?.traces ?? [];
  }

  /** for those who look at every moment */
  private noteTime(physics: TransientSolver): void {
    if (!this.recorder && !this.probes.any()) return;
    physics.complete();
    this.recorder?.note(this.time, physics.x);
    this.probes.note(physics.x);
  }

  /** Values of the network have changed at this moment. */
  private settleJump(): void {
    const { circuit, solver, floatingInputs, unknownOutputs, runtime, droops } = this.built;
    this.dirty = false;
    this.stressUnread = true;
    this.loopsUnread = true;
    this.overload.leave(this.time);
    this.noteTime(solver);
    if (this.options.still) solver.arrive();
    else solver.jump();
    droops?.look(solver.x, solver.end, 0, solver.resting());
    floatingInputs.changed();
    unknownOutputs.changed();
    this.noteTime(solver);
    runtime.deliver(
      this.settleLimits.count(solver.look(), this.schedule.foreground(), this.byClock),
      solver.x,
      solver.end,
      circuit.partition.takeDirty(),
    );
    this.noteTime(solver);
  }

  /** Runs to `until`, or to rest if `until` is Infinity; false if it did not come to rest, or did not get that far. */
  private advance(until: number): boolean {
    const toRest = until === Number.POSITIVE_INFINITY;
    let lastEvent = this.time;
    this.settleLimits.begin(this.built.runtime.watches.list.length);
    if (toRest) {
      this.endless = [];
      this.swings = false;
    }
    const most = toRest ? TURNS_TO_REST : TURNS_IN_TIME;
    for (let turns = 0; turns < most; turns++) {
      const { solver, runtime } = this.built;
      while (this.schedule.next() <= this.time) {
        const due = this.schedule.take();
        if (due) this.dispatch(due);
        lastEvent = this.time;
      }
      if (toRest && this.settleLimits.restless()) break;
      if (this.dirty) {
        this.settleJump();
        continue;
      }
      if (solver.resting() && this.stressUnread && !this.options.still) {
        this.overload.settle(solver.x, this.time);
        this.stressUnread = false;
      }
      if (this.time >= this.overload.due()) {
        this.breakDown();
        continue;
      }
      const horizon = Math.min(until, this.schedule.next(), toRest ? Number.POSITIVE_INFINITY : this.overload.due());
      if (solver.resting()) {
        if (!this.schedule.foreground() && this.startLoop()) continue;
        if (toRest && !this.schedule.foreground()) {
          this.recorder?.rested(this.time);
          return true;
        }
        this.time = horizon;
        if (horizon === until && this.schedule.next() > until && this.overload.due() > until) return true;
        continue;
      }
      if (this.time >= until || (toRest && !this.schedule.foreground() && this.time - lastEvent > SETTLE_LIMITS)) {
        this.recorder?.rested(this.time);
        return false;
      }
      const { moved, passed } = solver.step(toRest ? Math.min(horizon - this.time, SETTLE_LIMITS) : horizon - this.time);
      this.time += moved;
      this.built.droops?.look(solver.x, solver.end, moved, solver.resting());
      // floating-point time: a step to the horizon lands on it
      if (horizon - this.time < 1e-18) this.time = Math.max(this.time, horizon);
      if (this.time - this.overload.since() >= WEAR_LOOKS && !this.options.still) this.overload.follow(solver.x, this.time);
      if (passed.length > 0) {
        lastEvent = this.time;
        runtime.deliver(this.settleLimits.count(passed, this.schedule.foreground(), this.byClock), solver.x, solver.end, undefined);
      }
      this.noteTime(solver);
    }
    if (toRest) this.giveUp();
    return false;
  }

  /** It was waited for and did not come to rest: a timer may swing for ever, as it should; a memory that keeps answering itself should not. */
  private giveUp(): void {
    const reads = new Set(this.built.circuit.chips.filter((c) => c.spec.word).map((c) => c.placed.part.id));
    this.swings = this.settleLimits.restless();
    this.endless = this.settleLimits.restlessChips((part) => reads.has(part));
  }

  /** What waits for itself is set going, once for each time that something has changed. */
  private startLoop(): boolean {
    if (!this.loopsUnread) return false;
    this.loopsUnread = startLoop(this.built, this.time);
    return this.loopsUnread;
  }

  private dispatch(due: ContactMove | Readonly<Alarm>): void {
    this.byClock = 'alarm' in due && due.background;
    if ('hand' in due) {
      if (this.switches.isLast(due)) this.moveTo(due);
    } else {
      this.built.runtime.alarm(due.slot, due.alarm);
      if (!due.background) this.settleLimits.countPart(due.slot.site.placed.part.id);
    }
  }

  private moveTo({ hand, pole, closed }: ContactMove): void {
    const { network, contactsById } = this.built.circuit;
    const site = contactsById.get(hand)?.[pole];
    if (!site) return;
    const to = conductanceOf(site, closed);
    this.listener.moved(site.device, network.conductance(site.device), to);
    network.setConductance(site.device, to);
    this.settleLimits.contactMoved();
  }

  plan(): Plan {
    return planOf(this.built, this.switches.switches);
  }

  private moveContact({ placed, pole, contact }: ContactSite, closed: boolean): void {
    const hand = placed.part.id;
    const rebounds = this.options.bounce && !this.options.still && contact.bounce > 0 ? contactBounce(contact.bounce, this.random) : [];
    const moves = this.switches.move(hand, pole, closed, rebounds.length);
    for (let k = 0; k < moves.length; k++) this.schedule.move(this.time + (rebounds[k - 1] ?? 0), moves[k] as ContactMove);
    this.switches.set(hand, pole, closed);
  }

  /** Puts the bench together again after an edit; chips that the edit is not about keep what they hold and go on with what they do. */
  private rebuild(change: Change): Outcome<void> {
    const before = this.built;
    const plan = this.plan();
    const after = apply(plan, change);
    if (isWiredAlike(plan, after)) {
      this.built = { ...this.built, circuit: { ...this.built.circuit, plan: after } };
      return done(undefined);
    }
    const circuit = buildCircuit(after, this.options.drive, this.options.overrides);
    if (!circuit.ok) return circuit;
    const restarted = restarts(plan, circuit.value.plan);
    for (const id of restarted) this.overload.forget(id);
    this.switches.begin(circuit.value.plan.switches);
    before.solver.complete();
    const carried = new Map([...before.runtime.byPart].filter(([part]) => !restarted.has(part)));
    // one that forgets without its supply keeps it while it is given other bytes
    const put = givenBytes(plan, circuit.value.plan);
    const given = new Map([...before.runtime.byPart].filter(([part, s]) => s.site.spec.word?.forgets && put.has(part)));
    this.built = makeBuiltCircuit(
      circuit.value,
      this.switches.switches,
      this.listener,
      this.probes,
      carried,
      { circuit: before.circuit, x: before.solver.x },
      given,
    );
    // a chip that has just been pushed in had no supply until now
    for (const [part, slot] of this.built.runtime.byPart) {
      if (carried.get(part) === slot) continue;
      if (given.has(part)) slot.volts = this.built.solver.x;
      slot.chip.begin(this.time);
    }
    this.recorder?.attach(this.built.runtime);
    // its marks have other numbers
    this.settleLimits.begin(this.built.runtime.watches.list.length);
    this.settleJump();
    return done(undefined);
  }

  private breakDown(): void {
    const gone = this.overload.take(this.time);
    const before = gone && this.built.circuit.plan.parts.find((p) => p.id === gone.part);
    if (!before) return;
    const { pins } = gone.damage;
    const burnt = pins && { pins: [...(before.damaged?.pins ?? []), ...pins] };
    this.rebuild({ op: 'replace', list: 'parts', before, after: { ...before, damaged: { ...gone.damage, ...burnt } } });
  }

  private moveWire(id: string, end: 'from' | 'to', point: string): Outcome<void> {
    const { plan } = this.built.circuit;
    const index = plan.wires.findIndex((l) => l.id === id);
    const wire = plan.wires[index];
    if (!wire)
      return failed('run/unknown-wire', id, `There is no wire ${id} on this bench; it has ${plan.wires.map((l) => l.id).join(', ')}.`);
    const moved: PlanWire = { ...wire, [end]: point };
    const fits = buildCircuit(
      apply(plan, { op: 'replace', list: 'wires', before: wire, after: moved }),
      this.options.drive,
      this.options.overrides,
    );
    if (!fits.ok) return fits;
    const out = this.rebuild({ op: 'remove', list: 'wires', item: wire, index });
    if (!out.ok) return out;
    this.advance(this.time + MOVE_SECONDS);
    return this.rebuild({ op: 'insert', list: 'wires', item: moved, index });
  }

  private illuminate(act: Extract<Action, { do: 'light' }>): Outcome<void> {
    const slot = this.built.runtime.byPart.get(act.part);
    if (!slot?.chip.light) return failed('run/no-window', act.part, `${act.part} has no window for light. Choose a UV EPROM.`);
    if (!(act.seconds >= 0 && act.wattsPerCm2 >= 0))
      return failed(
        'run/bad-exposure',
        act.part,
        `Light needs a time and a strength of 0 or more; these are ${act.seconds} s and ${act.wattsPerCm2} W/cm².`,
      );
    this.advance(this.time + act.seconds);
    if (!act.covered) slot.chip.light(act.seconds * act.wattsPerCm2, this.time);
    return done(undefined);
  }

  begin(act: Action): Outcome<void> {
    this.byClock = false;
    this.probes.begin();
    const { circuit, droops } = this.built;
    droops?.clear();
    if (act.do === 'move-wire') return this.moveWire(act.wire, act.end, act.point);
    if (act.do === 'edit') return this.rebuild(act.change);
    if (act.do === 'light') return this.illuminate(act);
    const pole = act.do === 'set' ? act.pole : 0;
    const closed = act.do === 'set' ? act.closed : act.do === 'press';
    const supply = circuit.supplyById.get(act.part);
    if (supply && act.do === 'set') return this.switchSupply(supply, closed);
    const contact = circuit.contactsById.get(act.part)?.[pole];
    if (!contact) return failed('run/no-switch', act.part, `${act.part} has no switch ${pole + 1} that a hand could move on this bench.`);
    this.moveContact(contact, closed);
    return done(undefined);
  }

  private switchSupply(site: SupplySite, on: boolean): Outcome<void> {
    this.built.circuit.network.switchSupply(site.device, on);
    this.switches.set(site.placed.part.id, 0, on);
    this.built.circuit.partition.markAllDirty();
    this.dirty = true;
    return done(undefined);
  }
}
