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
import { conductanceOf, makeBuiltCircuit } from './built-circuit.ts';
import { buildCircuit, type Circuit, type ContactSite, type SupplySite } from './circuit/circuit.ts';
import type { Ear } from './digital/chip-runtime.ts';
import { contactBounce } from './digital/contact-bounce.ts';
import { type Alarm, makeSchedule } from './digital/schedule.ts';
import { type ContactMove, makeSwitchStates } from './digital/switch-state.ts';
import { measure, measureGlows } from './readout/measure.ts';
import { makeOverloadDamage } from './readout/overload-damage.ts';
import { makeProbes } from './readout/probes.ts';
import { makeRecorder, type Recorder } from './readout/recorder.ts';
import { givenBytes, isWiredAlike, restarts } from './rebuild.ts';
import { makeSettleLimits, SETTLE_LIMITS, TURNS_IN_TIME, TURNS_TO_REST } from './settle-limits.ts';
import { planOf } from './snapshot.ts';

/** While voltages are on their way, overloads are looked at no more often [s]; far below the times in which they harm. */
const WEAR_LOOKS = 1e-4;
/** How long a hand takes from one hole to another, or holds a button [s]. */
const HAND = 0.3;

const DEFAULTS: Options = { drive: undefined, bounce: true, seed: 1, still: false };

/** A bench as the plan says it stands, at rest; or the sentence that says why this plan cannot be built. */
export function simulate(plan: Plan, options: Partial<Options> = {}): Outcome<Simulation> {
  const chosen = { ...DEFAULTS, ...options };
  const circuit = buildCircuit(plan, chosen.drive, chosen.specimens);
  return circuit.ok ? done(run(circuit.value, chosen)) : circuit;
}

function run(first: Circuit, options: Options): Simulation {
  const dues = makeSchedule();
  const random = makeRandom(options.seed);
  const events: ChipEvent[] = [];
  let now = 0;
  let stirred = false;
  /** what is at rest now has not been looked at for overloads yet */
  let unworn = true;
  /** chips that were still answering each other when the bench was given up */
  let endless: readonly string[] = [];
  const patience = makeSettleLimits();
  const ear: Ear = {
    now: () => now,
    alarm: (seat, time, name, background) => dues.alarm(time, seat, name, background),
    report(event) {
      events.push(event);
      recorder?.reported(event, now);
    },
    moved(device, from, to) {
      if (from !== to) rig.circuit.blocks.moved(device, from, to, rig.physics.end);
      stirred = true;
    },
  };
  /** while somebody looks at pins in time */
  let recorder: Recorder | undefined;
  const probes = makeProbes();
  /** for those who look at every moment */
  const noteTime = (physics: TransientSolver) => {
    if (!recorder && !probes.any()) return;
    physics.complete();
    recorder?.note(now, physics.x);
    probes.note(physics.x);
  };
  /** of now; the circuit's own plan keeps where the switches stood when it was built */
  const stances = makeSwitchStates(first.plan.hands);
  let rig = makeBuiltCircuit(first, stances.hands, ear, probes);
  const wear = makeOverloadDamage(() => rig.circuit);

  /** Values of the network have changed at this moment. */
  const settleJump = () => {
    const { circuit, physics, holding, undecided, sockets, dips } = rig;
    stirred = false;
    unworn = true;
    wear.leave(now);
    noteTime(physics);
    if (options.still) physics.arrive();
    else physics.jump();
    dips?.look(physics.x, physics.end, 0, physics.resting());
    holding.changed();
    undecided.changed();
    noteTime(physics);
    sockets.deliver(patience.count(physics.look(), dues.foreground()), physics.x, physics.end, circuit.blocks.takeStirred());
    noteTime(physics);
  };

  /** Runs to `until`, or to rest if `until` is Infinity; false if it did not come to rest, or did not get that far. */
  const advance = (until: number): boolean => {
    const toRest = until === Number.POSITIVE_INFINITY;
    let lastEvent = now;
    patience.begin(rig.sockets.watches.list.length);
    if (toRest) endless = [];
    const most = toRest ? TURNS_TO_REST : TURNS_IN_TIME;
    for (let turns = 0; turns < most; turns++) {
      const { physics, sockets } = rig;
      while (dues.next() <= now) {
        const due = dues.take();
        if (due) happen(due);
        lastEvent = now;
      }
      if (toRest && patience.restless()) break;
      if (stirred) {
        settleJump();
        continue;
      }
      if (physics.resting() && unworn && !options.still) {
        wear.settle(physics.x, now);
        unworn = false;
      }
      if (now >= wear.due()) {
        breakDown();
        continue;
      }
      const horizon = Math.min(until, dues.next(), toRest ? Number.POSITIVE_INFINITY : wear.due());
      if (physics.resting()) {
        if (toRest && !dues.foreground()) {
          recorder?.rested(now);
          return true;
        }
        now = horizon;
        if (horizon === until && dues.next() > until && wear.due() > until) return true;
        continue;
      }
      if (now >= until || (toRest && !dues.foreground() && now - lastEvent > SETTLE_LIMITS)) {
        recorder?.rested(now);
        return false;
      }
      const { moved, passed } = physics.step(toRest ? Math.min(horizon - now, SETTLE_LIMITS) : horizon - now);
      now += moved;
      rig.dips?.look(physics.x, physics.end, moved, physics.resting());
      // floating-point time: a step to the horizon lands on it
      if (horizon - now < 1e-18) now = Math.max(now, horizon);
      if (now - wear.since() >= WEAR_LOOKS && !options.still) wear.follow(physics.x, now);
      if (passed.length > 0) {
        lastEvent = now;
        sockets.deliver(patience.count(passed, dues.foreground()), physics.x, physics.end, undefined);
      }
      noteTime(physics);
    }
    // a timer may swing for ever, as it should; a memory that keeps answering itself should not
    const reads = new Set(rig.circuit.chips.filter((c) => c.spec.word).map((c) => c.placed.part.id));
    endless = toRest ? patience.answering((part) => reads.has(part)) : [];
    return false;
  };

  const happen = (due: ContactMove | Readonly<Alarm>) => {
    if ('hand' in due) {
      if (stances.isLast(due)) moveTo(due);
    } else {
      rig.sockets.alarm(due.seat, due.alarm);
      if (!due.background) patience.heard(due.seat.site.placed.part.id);
    }
  };
  const moveTo = ({ hand, pole, closed }: ContactMove) => {
    const { network, contacts } = rig.circuit;
    const site = contacts.find((c) => c.placed.part.id === hand && c.pole === pole);
    if (!site) return;
    const to = conductanceOf(site, closed);
    ear.moved(site.device, network.conductance(site.device), to);
    network.setConductance(site.device, to);
    patience.contactMoved();
  };

  const planNow = (): Plan => planOf(rig, stances.hands);

  const moveContact = ({ placed, pole, contact }: ContactSite, closed: boolean) => {
    const hand = placed.part.id;
    const rebounds = options.bounce && !options.still && contact.bounce > 0 ? contactBounce(contact.bounce, random) : [];
    const moves = stances.move(hand, pole, closed, rebounds.length);
    for (let k = 0; k < moves.length; k++) dues.move(now + (rebounds[k - 1] ?? 0), moves[k] as ContactMove);
    stances.stand(hand, pole, closed);
  };

  /** Puts the bench together anew after an edit; chips that the edit is not about keep what they hold and go on with what they do. */
  const rewire = (change: Change): Outcome<void> => {
    const before = rig;
    const plan = planNow();
    const after = apply(plan, change);
    if (isWiredAlike(plan, after)) {
      rig = { ...rig, circuit: { ...rig.circuit, plan: after } };
      return done(undefined);
    }
    const circuit = buildCircuit(after, options.drive, options.specimens);
    if (!circuit.ok) return circuit;
    const anew = restarts(plan, circuit.value.plan);
    for (const id of anew) wear.forget(id);
    stances.begin(circuit.value.plan.hands);
    before.physics.complete();
    const carried = before.sockets.all.filter((s) => !anew.has(s.site.placed.part.id));
    // one that forgets without its supply keeps it while it is given other bytes
    const put = givenBytes(plan, circuit.value.plan);
    const given = before.sockets.all.filter((s) => s.site.spec.word?.forgets && put.has(s.site.placed.part.id));
    rig = makeBuiltCircuit(circuit.value, stances.hands, ear, probes, carried, { circuit: before.circuit, x: before.physics.x }, given);
    // a chip that has just been pushed in had no supply until now
    for (const socket of rig.sockets.all) {
      if (carried.includes(socket)) continue;
      if (given.some((s) => s.site.placed.part.id === socket.site.placed.part.id)) socket.volts = rig.physics.x;
      socket.chip.begin(now);
    }
    recorder?.attach(rig.sockets);
    // its marks have other numbers
    patience.begin(rig.sockets.watches.list.length);
    settleJump();
    return done(undefined);
  };

  const breakDown = () => {
    const gone = wear.take(now);
    const before = gone && rig.circuit.plan.parts.find((p) => p.id === gone.part);
    if (!before) return;
    const { pins } = gone.damage;
    const burnt = pins && { pins: [...(before.damaged?.pins ?? []), ...pins] };
    rewire({ op: 'replace-part', before, after: { ...before, damaged: { ...gone.damage, ...burnt } } });
  };

  const moveWire = (id: string, end: 'from' | 'to', point: string): Outcome<void> => {
    const { plan } = rig.circuit;
    const index = plan.wires.findIndex((l) => l.id === id);
    const wire = plan.wires[index];
    if (!wire)
      return failed('run/unknown-wire', id, `There is no wire ${id} on this bench; it has ${plan.wires.map((l) => l.id).join(', ')}.`);
    const moved: PlanWire = { ...wire, [end]: point };
    const fits = buildCircuit(apply(plan, { op: 'replace-wire', before: wire, after: moved }), options.drive, options.specimens);
    if (!fits.ok) return fits;
    const out = rewire({ op: 'remove-wire', wire, index });
    if (!out.ok) return out;
    advance(now + HAND);
    return rewire({ op: 'add-wire', wire: moved, index });
  };

  const shine = (act: Extract<Action, { do: 'light' }>): Outcome<void> => {
    const socket = rig.sockets.all.find((s) => s.site.placed.part.id === act.part);
    if (!socket?.chip.light)
      return failed('run/no-window', act.part, `${act.part} has no window that light could fall through. Choose a UV EPROM.`);
    if (!(act.seconds >= 0 && act.wattsPerCm2 >= 0))
      return failed(
        'run/bad-exposure',
        act.part,
        `Light needs a time and a strength of 0 or more; these are ${act.seconds} s and ${act.wattsPerCm2} W/cm².`,
      );
    advance(now + act.seconds);
    if (!act.covered) socket.chip.light(act.seconds * act.wattsPerCm2, now);
    return done(undefined);
  };

  const begin = (act: Action): Outcome<void> => {
    probes.begin();
    const { circuit, dips } = rig;
    dips?.clear();
    if (act.do === 'move-wire') return moveWire(act.wire, act.end, act.point);
    if (act.do === 'edit') return rewire(act.change);
    if (act.do === 'light') return shine(act);
    const pole = act.do === 'set' ? act.pole : 0;
    const closed = act.do === 'set' ? act.closed : act.do === 'press';
    const supply = circuit.supplies.find((s) => s.placed.part.id === act.part);
    if (supply && act.do === 'set') {
      switchSupply(supply, closed);
      return done(undefined);
    }
    const contact = circuit.contacts.find((c) => c.placed.part.id === act.part && c.pole === pole);
    if (!contact) return failed('run/no-switch', act.part, `${act.part} has no switch ${pole + 1} that a hand could move on this bench.`);
    moveContact(contact, closed);
    return done(undefined);
  };

  const switchSupply = (site: SupplySite, on: boolean) => {
    rig.circuit.network.switchSupply(site.device, on);
    stances.stand(site.placed.part.id, 0, on);
    rig.circuit.blocks.stirAll();
    stirred = true;
  };

  // the bench as found: at rest since long ago
  rig.physics.arrive();
  rig.physics.look();
  rig.sockets.begin(rig.physics.x, rig.physics.end);
  stirred = true;
  advance(Number.POSITIVE_INFINITY);

  return {
    get circuit() {
      return rig.circuit;
    },
    get now() {
      return now;
    },
    begin,
    act(act) {
      const begun = begin(act);
      if (begun.ok) advance(Number.POSITIVE_INFINITY);
      return begun;
    },
    wait(seconds) {
      const until = now + Math.max(0, seconds);
      advance(until);
      return now >= until;
    },
    rest: () => advance(Number.POSITIVE_INFINITY),
    get pending() {
      return dues.next() < Number.POSITIVE_INFINITY || wear.due() < Number.POSITIVE_INFINITY;
    },
    glows: (into) => measureGlows(rig, into),
    readings: () => ({ ...measure(rig, stances.hands, now), ...(endless.length > 0 ? { endless } : {}) }),
    events,
    plan: planNow,
    watch(parts) {
      if (parts.length === 0) recorder = undefined;
      else {
        if (!recorder) {
          recorder = makeRecorder();
          recorder.attach(rig.sockets);
        }
        recorder.watch(parts);
        noteTime(rig.physics);
      }
    },
    get traces() {
      return recorder?.traces ?? [];
    },
  };
}
