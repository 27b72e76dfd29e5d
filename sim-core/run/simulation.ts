/** A running bench as the rooms above know it: what a hand does, how long it is waited for, and what can be seen of it. */

import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import type { ChipEvent } from '../parts/part.ts';
import type { Action } from './action.ts';
import type { Options, Simulation } from './api.ts';
import type { BuiltCircuit } from './built-circuit.ts';
import { buildCircuit, type Circuit } from './circuit/circuit.ts';
import { SwitchStates } from './digital/switch-state.ts';
import { Hands } from './hands.ts';
import { measure, measureBrightness } from './readout/measure.ts';
import type { Breakdown } from './readout/overload-damage.ts';
import type { Readings } from './readout/readings.ts';
import type { Trace } from './readout/recorder.ts';
import { allTurns, type Slices, TurnSlices } from './slices.ts';
import { planOf } from './snapshot.ts';
import { TimeLoop } from './time-loop.ts';
import type { Watcher } from './watcher.ts';

/** A simulation with what it runs on, for this room alone. */
type Running = Simulation & { readonly built: BuiltCircuit };

const DEFAULTS: Options = { drive: undefined, bounce: true, seed: 1, still: false };

/** A bench as the plan says it stands, at rest; or the sentence that says why this plan cannot be built. Fails with `plan/…`. */
export function simulate(plan: Plan, options: Partial<Options> = {}): Outcome<Running> {
  const found = simulateAsFound(plan, options);
  if (found.ok) found.value.rest();
  return found;
}

/** The same before anything has followed from how it was found: its `restInSlices` goes on from there. Fails with `plan/…`. */
export function simulateAsFound(plan: Plan, options: Partial<Options> = {}): Outcome<Running> {
  const chosen = { ...DEFAULTS, ...options };
  const circuit = buildCircuit(plan, chosen.drive, chosen.overrides);
  return circuit.ok ? done(new RunningBench(circuit.value, chosen)) : circuit;
}

class RunningBench implements Simulation {
  /** of now; the circuit's own plan keeps where the switches stood when it was built */
  private readonly switches: SwitchStates;
  private readonly loop: TimeLoop;
  private readonly hands: Hands;
  private underWay: Slices<unknown> | undefined;

  constructor(
    first: Circuit,
    readonly options: Options,
  ) {
    this.switches = new SwitchStates(first.plan.switches);
    this.loop = new TimeLoop(first, this.switches, options, (gone) => this.breakDown(gone));
    this.hands = new Hands(this.loop, this.switches, options);
  }

  get circuit(): Circuit {
    return this.loop.built.circuit;
  }

  get built(): BuiltCircuit {
    return this.loop.built;
  }

  get now(): number {
    return this.loop.time;
  }

  get events(): readonly ChipEvent[] {
    return this.loop.events;
  }

  get pending(): boolean {
    return this.loop.pending;
  }

  act(act: Action): Outcome<void> {
    return allTurns(this.next(this.through(act)));
  }

  begin(act: Action): Outcome<void> {
    return allTurns(this.next(this.hands.begin(act)));
  }

  wait(seconds: number): boolean {
    return allTurns(this.next(this.passing(seconds)));
  }

  rest(): boolean {
    return allTurns(this.next(this.loop.pass(Number.POSITIVE_INFINITY)));
  }

  beginInSlices(act: Action): Slices<Outcome<void>> {
    return this.inSlices(this.hands.begin(act));
  }

  waitInSlices(seconds: number): Slices<boolean> {
    return this.inSlices(this.passing(seconds));
  }

  restInSlices(): Slices<boolean> {
    return this.inSlices(this.loop.pass(Number.POSITIVE_INFINITY));
  }

  brightnesses(into: Uint8Array): void {
    measureBrightness(this.loop.built, into);
  }

  voltages(into: Float64Array): void {
    const { solver } = this.loop.built;
    solver.complete();
    into.set(solver.x);
  }

  isClosed(part: string, pole: number): boolean {
    return this.switches.switches[part]?.[pole] ?? false;
  }

  readings(): Readings {
    const { built, time, oscillations } = this.loop;
    return { ...measure(built, this.switches.switches, time), ...(oscillations.length > 0 ? { restless: oscillations } : {}) };
  }

  watch(parts: readonly string[]): void {
    this.loop.onlookers.watch(parts, this.loop.time);
  }

  tell(watcher: Watcher | undefined): void {
    this.loop.onlookers.tell(watcher, this.loop.time);
  }

  get traces(): readonly Trace[] {
    return this.loop.onlookers.traces;
  }

  plan(): Plan {
    return planOf(this.loop.built, this.switches.switches);
  }

  private *through(act: Action): Generator<void, Outcome<void>> {
    const begun = yield* this.hands.begin(act);
    if (begun.ok) yield* this.loop.pass(Number.POSITIVE_INFINITY);
    return begun;
  }

  private *passing(seconds: number): Generator<void, boolean> {
    const until = this.loop.time + Math.max(0, seconds);
    yield* this.loop.pass(until);
    return this.loop.time >= until;
  }

  /** What is still under way is stopped before this begins. */
  private next<T>(turns: Generator<void, T>): Generator<void, T> {
    this.underWay?.stop();
    this.underWay = undefined;
    this.loop.goOn();
    return turns;
  }

  private inSlices<T>(turns: Generator<void, T>): Slices<T> {
    const slices = new TurnSlices(this.next(turns), () => this.loop.stop());
    this.underWay = slices;
    return slices;
  }

  private breakDown({ part, damage }: Breakdown): void {
    const before = this.circuit.plan.parts.find((p) => p.id === part);
    if (!before) return;
    const burnt = damage.pins && { pins: [...(before.damaged?.pins ?? []), ...damage.pins] };
    this.hands.edit({ op: 'replace', list: 'parts', before, after: { ...before, damaged: { ...damage, ...burnt } } });
  }
}
