/** The face of a running bench: everything above this room knows a simulation by these few calls. */

import type { Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import type { ChipEvent } from '../parts/part.ts';
import type { Action } from './action.ts';
import type { Circuit } from './circuit/circuit.ts';
import type { PartOverrides } from './circuit/part-overrides.ts';
import type { Readings } from './readout/readings.ts';
import type { Trace } from './readout/recorder.ts';
import type { Slices } from './slices.ts';
import type { Watcher } from './watcher.ts';

/** How a bench is simulated: which output curves, with or without contact bounce, from which seed. */
export interface Options {
  /** which curve the outputs follow; undefined: as the plan says */
  readonly drive: 'typical' | 'guaranteed' | undefined;
  /** false: contacts close and open once */
  readonly bounce: boolean;
  /** of contact bounce; the same seed gives the same run to the bit */
  readonly seed: number;
  /** true: time between events is skipped, and every change is looked at only once it has come to rest; for sweeps, not for write pulses */
  readonly still: boolean;
  /** 'events': every row of a walk is solved by the event engine, as one with other means is judged by */
  readonly rows?: 'events';
  /** parts that differ from what the plan and their kinds say */
  readonly overrides?: PartOverrides;
}

/** A running bench. Times in s, voltages in V, currents in A. */
export interface Simulation {
  readonly circuit: Circuit;
  readonly options: Options;
  /** simulated time [s] */
  readonly now: number;
  /** does it and runs until everything rests; the answer says if the act was not possible */
  act(act: Action): Outcome<void>;
  /** lets simulated time pass; false if the bench has too much to do to get that far */
  wait(seconds: number): boolean;
  /** does it, without waiting for what follows; `wait` or `rest` goes on from there */
  begin(act: Action): Outcome<void>;
  /** runs until nothing changes any more; false if something never comes to rest */
  rest(): boolean;
  /** `begin`, `wait` and `rest` in slices, for a caller who has something else to do meanwhile or may want to stop */
  beginInSlices(act: Action): Slices<Outcome<void>>;
  waitInSlices(seconds: number): Slices<boolean>;
  restInSlices(): Slices<boolean>;
  /** something will happen if time passes: a clock ticks, a part is being overloaded, what was stopped goes on */
  readonly pending: boolean;
  readings(): Readings;
  /** the LEDs alone, without a new object: places in BRIGHTNESSES, in the order of circuit.leds */
  brightnesses(into: Uint8Array): void;
  /** the voltages of all nodes alone [V], without a new object; the last place is ground */
  voltages(into: Float64Array): void;
  /** how a switch stands; false also where there is none */
  isClosed(part: string, pole: number): boolean;
  /** what the chips reported since the beginning, oldest first */
  readonly events: readonly ChipEvent[];
  /** records the pins of these chips from now on; none: no more */
  watch(parts: readonly string[]): void;
  /** tells this one of every moment from now on; undefined: nobody any more */
  tell(watcher: Watcher | undefined): void;
  /** the last write or read of each watched chip */
  readonly traces: readonly Trace[];
  /** the plan as it stands now: wires moved, switches set, bytes written */
  plan(): Plan;
}
