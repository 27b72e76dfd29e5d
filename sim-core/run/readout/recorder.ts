/**
 * What the pins of a watched memory did around its last writes and reads, sample by sample as the physics computed them. Bounded: a ring of samples
 * a chip, and a few traces cut from it. A bench that is not watched pays one comparison a step.
 */
import { GROUND } from '../../devices/network.ts';
import type { ChipEvent, ChipState, Level, WriteReport } from '../../parts/part.ts';
import type { ChipRuntime } from '../digital/chip-runtime.ts';
import type { RunningChip } from '../digital/chip-slot.ts';
import { type PinPlace, pinLevel, pinPlaces } from './pin-level.ts';

export type TraceLevel = Level | 'Z' | '-';

/** One pin of a recorded trace: its times [s], voltages [V] and levels. */
export interface TracePin {
  readonly pin: string;
  readonly name: string;
  /** against the chip's ground [V], one a sample */
  readonly volts: readonly number[];
  /** one letter a sample; - for a pin without a level */
  readonly levels: string;
}

/** One write or read as it was computed. Two samples at one time are a jump. */
export interface Trace {
  readonly part: string;
  readonly what: 'write' | 'read';
  /** [s] of simulated time, ascending */
  readonly times: readonly number[];
  readonly pins: readonly TracePin[];
  /** what the chip was doing from then on, oldest first */
  readonly states: ReadonlyArray<{ readonly time: number; readonly state: ChipState }>;
  /** of a write */
  readonly report?: WriteReport;
}

/** Samples kept a chip; a write by hand takes some hundreds. */
const SAMPLES = 4096;
/** States kept a chip. */
const STATES = 256;
/** Of a write's own length, what is shown before and after it; of a read, what is shown before and after [s]. */
const ROUND_WRITE = 0.7;
const ROUND_READ = 120e-9;
/** A sample that differs from the last one kept by less than this everywhere [V] is left out of a trace. */
const SAME = 0.02;
const LETTERS: readonly TraceLevel[] = ['-', 'L', 'H', 'X', 'Z'];

interface Reel {
  readonly part: string;
  slot: RunningChip;
  places: readonly PinPlace[];
  /** node of each pin, −1 for ground; and of the ground pin */
  nodes: readonly number[];
  ground: number;
  readonly times: Float64Array;
  readonly volts: Float32Array;
  readonly levels: Uint8Array;
  /** samples ever taken; the ring holds the last SAMPLES of them */
  count: number;
  states: { time: number; state: ChipState }[];
  /** when an input last changed its level, and an output after it [s] */
  inputAt: number;
  outputAt: number;
  /** a write that has been reported and whose aftermath is still to come */
  written: { readonly report: WriteReport; readonly from: number; readonly until: number } | undefined;
  trace: Trace | undefined;
}

export class Recorder {
  private reels: Reel[] = [];
  private wanted: readonly string[] = [];
  private slots: ChipRuntime | undefined;

  /** keeps these parts' pins in sight, and no others */
  watch(parts: readonly string[]): void {
    this.wanted = parts;
    this.load();
  }

  /** the bench has been put together again */
  attach(runtime: ChipRuntime): void {
    this.slots = runtime;
    if (this.wanted.length > 0) this.load();
  }

  /** voltages x at this moment */
  note(now: number, x: Float64Array): void {
    for (const reel of this.reels) {
      sample(reel, now, x);
      if (reel.written && now > reel.written.until) finishWrite(reel);
    }
  }

  reported(event: ChipEvent, now: number): void {
    const reel = this.reels.find((r) => r.part === event.part);
    if (!reel) return;
    // a byte that was stored is not given up for the pulses of a bouncing button after it
    if (event.outcome === 'ignored' && reel.written && reel.written.report.outcome !== 'ignored') return;
    if (
      event.outcome === 'ignored' &&
      reel.trace?.report &&
      reel.trace.report.outcome !== 'ignored' &&
      event.time - reel.trace.report.time < 0.1
    )
      return;
    const round = ROUND_WRITE * Math.max(now - event.time, 20e-9);
    reel.written = { report: event, from: event.time - round, until: now + round };
  }

  /** nothing moves any more */
  rested(now: number): void {
    for (const reel of this.reels) {
      if (reel.written) finishWrite(reel);
      else if (reel.inputAt > Number.NEGATIVE_INFINITY && reel.slot.chip.state(now).doing === 'reading')
        reel.trace = cut(reel, 'read', reel.inputAt - ROUND_READ, Math.max(reel.inputAt, reel.outputAt) + ROUND_READ);
      reel.inputAt = Number.NEGATIVE_INFINITY;
    }
  }

  /** the last trace of each watched part, if it has one */
  get traces(): readonly Trace[] {
    return this.reels.flatMap((r) => r.trace ?? []);
  }

  private putIn(reel: Pick<Reel, 'slot' | 'places' | 'nodes' | 'ground'>, slot: RunningChip): void {
    const { site } = slot;
    const inside = (node: number) => (node === GROUND ? -1 : node);
    reel.slot = slot;
    reel.places = pinPlaces(site);
    reel.nodes = reel.places.map(({ name, input, output }) => {
      const pin = [site.inputs[input], site.outputs[output], site.supply, site.ground].find((p) => p?.name === name);
      return inside(pin?.node ?? GROUND);
    });
    reel.ground = inside(site.ground.node);
  }

  private load(): void {
    const before = this.reels;
    this.reels = (this.slots?.all ?? []).flatMap((slot): Reel[] => {
      const part = slot.site.placed.part.id;
      if (!this.wanted.includes(part)) return [];
      const old = before.find((r) => r.part === part && r.places.length === pinPlaces(slot.site).length);
      if (old) {
        this.putIn(old, slot);
        return [old];
      }
      const pins = pinPlaces(slot.site).length;
      const empty = { slot, places: [], nodes: [], ground: -1 };
      this.putIn(empty, slot);
      return [
        {
          ...empty,
          part,
          times: new Float64Array(SAMPLES),
          volts: new Float32Array(SAMPLES * pins),
          levels: new Uint8Array(SAMPLES * pins),
          count: 0,
          states: [],
          inputAt: Number.NEGATIVE_INFINITY,
          outputAt: Number.NEGATIVE_INFINITY,
          written: undefined,
          trace: undefined,
        },
      ];
    });
  }
}

function sample(reel: Reel, now: number, x: Float64Array): void {
  const { slot, places, nodes, ground, times, volts, levels } = reel;
  const n = places.length;
  const at = (reel.count % SAMPLES) * n;
  const before = ((reel.count + SAMPLES - 1) % SAMPLES) * n;
  const state = slot.chip.state(now);
  const zero = ground < 0 ? 0 : (x[ground] as number);
  let changed = reel.count === 0;
  for (let i = 0; i < n; i++) {
    const place = places[i] as PinPlace;
    const node = nodes[i] as number;
    volts[at + i] = (node < 0 ? 0 : (x[node] as number)) - zero;
    const level = LETTERS.indexOf(pinLevel(slot, place, state.doing) ?? '-');
    levels[at + i] = level;
    if (reel.count === 0 || level === levels[before + i]) continue;
    changed = true;
    // a pin that is both is an input only while the chip does not drive it
    if (place.output < 0) reel.inputAt = now;
    else reel.outputAt = now;
  }
  times[reel.count % SAMPLES] = now;
  reel.count += 1;
  const last = reel.states.at(-1);
  if (!changed && last?.state.doing === state.doing) return;
  reel.states.push({ time: now, state });
  if (reel.states.length > 2 * STATES) reel.states = reel.states.slice(-STATES);
}

function finishWrite(reel: Reel): void {
  const { written } = reel;
  reel.written = undefined;
  if (written) reel.trace = { ...cut(reel, 'write', written.from, written.until), report: written.report };
}

/** The samples of this stretch of time, thinned, with what stood at its beginning and its end. */
function cut(reel: Reel, what: Trace['what'], from: number, until: number): Trace {
  const { times, volts, levels, places } = reel;
  const n = places.length;
  const first = Math.max(0, reel.count - SAMPLES);
  const timeOf = (k: number) => times[k % SAMPLES] as number;
  let begin = first;
  while (begin + 1 < reel.count && timeOf(begin + 1) <= from) begin++;
  const kept: number[] = [begin];
  const differs = (a: number, b: number) => {
    const [i, j] = [(a % SAMPLES) * n, (b % SAMPLES) * n];
    for (let p = 0; p < n; p++)
      if (levels[i + p] !== levels[j + p] || Math.abs((volts[i + p] as number) - (volts[j + p] as number)) > SAME) return true;
    return false;
  };
  for (let k = begin + 1; k < reel.count && timeOf(k) <= until; k++) {
    const last = kept.at(-1) as number;
    if (!differs(last, k)) continue;
    // what stood until just before it moved
    if (k - 1 > last) kept.push(k - 1);
    kept.push(k);
  }
  const rows = kept.map((k) => (k % SAMPLES) * n);
  const clamp = (t: number) => Math.min(until, Math.max(from, t));
  const end = rows.at(-1) as number;
  return {
    part: reel.part,
    what,
    times: [...kept.map((k) => clamp(timeOf(k))), until],
    pins: places.map(({ pin, name }, p) => ({
      pin,
      name,
      volts: [...rows, end].map((row) => Math.round((volts[row + p] as number) * 1e3) / 1e3),
      levels: [...rows, end].map((row) => LETTERS[levels[row + p] as number] ?? '-').join(''),
    })),
    states: statesWithin(reel, from, until),
  };
}

function statesWithin({ states }: Reel, from: number, until: number): Trace['states'] {
  const inside = states.filter((s) => s.time > from && s.time <= until);
  const before = states.findLast((s) => s.time <= from);
  return before ? [{ ...before, time: from }, ...inside] : inside;
}
