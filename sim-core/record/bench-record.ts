/** The record of a bench: what is watched, moment by moment as it was computed, in bounded memory; a trigger says which stretch of time is wanted. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { BuiltCircuit } from '../run/built-circuit.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Watcher } from '../run/watcher.ts';
import { type Signal, type SignalKind, signalsOf } from './signals.ts';
import { Track } from './track.ts';
import { type Trigger, TriggerWatch } from './trigger.ts';

/** A signal and what it did. */
export interface Recorded {
  readonly signal: Signal;
  readonly track: Track;
}

/** A stretch of time [s]. */
export interface TimeWindow {
  readonly from: number;
  readonly until: number;
}

/** What is recorded, and which part of it is wanted. */
export interface RecordOptions {
  /** spans kept of each signal */
  readonly room?: number;
  /** absent: all of it is wanted, from the beginning on */
  readonly trigger?: Trigger;
  /** how much is wanted before the trigger, and after it [s] */
  readonly before?: number;
  readonly after?: number;
}

/** Spans of a signal: with seven numbers each some 115 kB. Our choice. */
const ROOM = 2048;
/** What moves by less is noise of the solver: [V], [A]. Our choice. */
const GRAIN: Readonly<Record<SignalKind, number>> = { volts: 1e-5, amps: 1e-8, level: 0, bus: 0, state: 0 };

/** What was watched of a bench; `Simulation.tell` has it told. */
export class BenchRecord implements Watcher {
  readonly all: readonly Recorded[];
  private asks: readonly ((now: number, x: Float64Array) => number)[] = [];
  private readonly watch: TriggerWatch | undefined;
  private readonly place: number;
  private began: number | undefined;
  private ended = 0;

  /** Fails with `record/nothing-of-this-name` or `record/bad-trigger`. */
  static of(words: readonly string[], circuit: Circuit, options: RecordOptions = {}): Outcome<BenchRecord> {
    const { trigger } = options;
    const signals: Signal[] = [];
    for (const word of trigger && trigger.on !== 'finding' ? [...words, trigger.signal] : words) {
      const found = signalsOf(word, circuit);
      if (!found.ok) return found;
      for (const s of found.value) if (!signals.some((o) => o.of === s.of && o.name === s.name && o.kind === s.kind)) signals.push(s);
    }
    if (!trigger) return done(new BenchRecord(signals, options, undefined, -1));
    const watch = TriggerWatch.of(trigger, signals, circuit);
    return watch.ok ? done(new BenchRecord(signals, options, watch.value.watch, watch.value.place)) : watch;
  }

  private constructor(
    signals: readonly Signal[],
    private readonly options: RecordOptions,
    watch: TriggerWatch | undefined,
    place: number,
  ) {
    this.all = signals.map((signal) => ({ signal, track: new Track(options.room ?? ROOM, GRAIN[signal.kind]) }));
    this.watch = watch;
    this.place = place;
  }

  attached(built: BuiltCircuit): void {
    this.asks = this.all.map(({ signal }) => signal.on(built));
  }

  note(now: number, x: Float64Array): void {
    this.passed(now);
    if (this.isOver(now)) return;
    this.began ??= now;
    for (let i = 0; i < this.asks.length; i++) {
      const value = (this.asks[i] as (typeof this.asks)[number])(now, x);
      // it is not on the bench any more
      if (Number.isNaN(value)) continue;
      (this.all[i] as Recorded).track.add(now, value);
      if (i === this.place) this.watch?.note(now, value);
    }
  }

  /** Time has passed until now [s], in which nothing moved that was not told. */
  passed(now: number): void {
    this.ended = Math.max(this.ended, now);
  }

  /** A finding that a trigger waits for has been made. */
  found(code: string, now: number): void {
    this.watch?.found(code, now);
  }

  /** when the trigger came [s]; undefined: not yet, or there is none */
  get triggered(): number | undefined {
    return this.watch?.at;
  }

  /** what is wanted, as far as it was recorded; undefined while a trigger has not come */
  get window(): TimeWindow | undefined {
    const { began, ended, triggered } = this;
    if (began === undefined || (this.watch && triggered === undefined)) return undefined;
    const { before = Number.POSITIVE_INFINITY, after = Number.POSITIVE_INFINITY } = this.options;
    if (triggered === undefined) return { from: began, until: ended };
    return { from: Math.max(began, triggered - before), until: Math.min(ended, triggered + after) };
  }

  /** [bytes] */
  get size(): number {
    return this.all.reduce((sum, { track }) => sum + track.size, 0);
  }

  private isOver(now: number): boolean {
    const { triggered } = this;
    return triggered !== undefined && now > triggered + (this.options.after ?? Number.POSITIVE_INFINITY);
  }
}
