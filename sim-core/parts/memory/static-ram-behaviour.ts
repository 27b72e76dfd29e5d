/**
 * The writing of a static RAM: while it is selected and /WE is low its cells follow the data pins, whichever level /OE has.
 * Every stretch of a pulse in which the address stands still writes to that address; without supply everything is lost.
 */
import type { PlanCells } from '../../../shared/plan.ts';
import type { Partly } from '../../units/hex.ts';
import type { Chip, ChipBench, ChipState, Figure, Level, WriteFault } from '../part.ts';
import { doubtsOf, stateOf } from './cell-state.ts';
import { type Cells, contentsOf, fillAtRandom, makeCells, readCells, writeCells } from './cells.ts';
import {
  activeIn,
  allActive,
  type Enable,
  type EnableBits,
  enableBits,
  gather,
  ReadPath,
  type ReadPins,
  type ReadTiming,
} from './read-path.ts';

/** All in seconds. A write ends when the first of select and write enable ends. */
export interface StaticTiming extends ReadTiming {
  readonly pulseLeast: number;
  readonly addressSetup: number;
  /** address valid, and chip selected, so long before the end of the write */
  readonly addressToEnd: number;
  readonly dataSetup: number;
  readonly dataHold: number;
  /** what the write figures come from, where that is another text than for the read figures */
  readonly writeSource: string;
}

export interface StaticPins extends ReadPins {
  readonly data: readonly number[];
  readonly writeEnable: Enable;
}

/** Below the first supply voltage [V] the cells lose what they hold (SOURCES.md S6: low-power types hold it at 2 V); above the second they can be used (from memory). */
export const STATIC_MARKS = [2, 3] as const;
/** A dip of the supply shorter than this leaves the cells as they are [s]; from memory: the charge on the chip's own metal carries them. */
const CARRIED = 1e-6;

interface Pulse {
  readonly leftHigh: number;
  low?: number;
  /** when it was last guaranteed low */
  leftLow?: number;
  /** when the address first moved within it */
  movedAt?: number;
  readonly addressSetup: number;
  /** its last stretch */
  address: Partly;
  data: Partly;
  dataSetup: number;
  sure: boolean;
}

export class StaticRamChip implements Chip {
  private readonly bench: ChipBench;
  private readonly pins: StaticPins;
  private readonly timing: StaticTiming;
  private readonly given: Readonly<Record<string, string>> | undefined;
  private readonly store: Cells;
  private readonly holds: 2;
  private readonly usable: 3;
  private readonly source: string;
  private readonly movedAt: number[];
  private lost = false;
  private fadesAt = Number.POSITIVE_INFINITY;
  private strobe: 'yes' | 'no' | 'perhaps' = 'no';
  private pulse: Pulse | undefined;
  private readonly read: ReadPath;
  /** what has to be active for a write */
  private readonly writes: readonly Enable[];
  private readonly writeBits: EnableBits;

  constructor(bench: ChipBench, pins: StaticPins, timing: StaticTiming, contents: Readonly<Record<string, string>> | undefined) {
    this.bench = bench;
    this.pins = pins;
    this.timing = timing;
    this.given = contents;
    this.store = makeCells(this.pins.address.length, this.given, undefined, 0, this.bench.cells);
    const [holds, usable] = STATIC_MARKS;
    this.holds = holds;
    this.usable = usable;
    this.source = this.timing.writeSource;
    this.movedAt = this.pins.data.map(() => Number.NEGATIVE_INFINITY);
    this.writes = [...this.pins.select, this.pins.writeEnable];
    this.writeBits = enableBits(this.writes);
    this.read = new ReadPath(
      this.bench,
      this.pins,
      this.timing,
      (address) => readCells(this.store, address),
      () => !this.lost,
    );
  }

  begin(now: number): void {
    // found in use, it holds what the plan says, and chance where the plan says nothing
    if (this.bench.supply() >= this.usable) fillAtRandom(this.store, this.bench.part, this.given, this.bench.cells);
    else this.lost = true;
    this.read.begin(now);
    this.findStrobe(now);
  }

  levelChanged(input: number, _from: Level, now: number): void {
    if (this.pins.address.includes(input)) {
      if (this.pulse && this.strobe === 'yes') {
        this.endStretch(this.pulse, now);
        this.pulse.movedAt ??= now;
      } else if (this.strobe === 'perhaps') this.mayStore();
      this.read.addressMoved(input, now);
      if (this.read.onBus() !== 'no') this.read.disturb(now);
      return;
    }
    const bit = this.pins.data.indexOf(input);
    if (bit >= 0) {
      this.movedAt[bit] = now;
      return;
    }
    const to = this.writing();
    if (to !== this.strobe) this.strobeMoved(to, now);
    this.read.enableMoved(input, now);
    this.read.disturb(now);
  }

  supplyCrossed(mark: number, rising: boolean, now: number): void {
    if (mark === this.holds) {
      this.fadesAt = rising ? Number.POSITIVE_INFINITY : now + CARRIED;
      if (!rising) this.bench.alarm(this.fadesAt, 'fade');
    } else if (mark === this.usable && rising) {
      if (this.lost) {
        this.lost = false;
        fillAtRandom(this.store, this.bench.part);
        this.findStrobe(now);
        this.read.disturb(now);
      }
    }
    this.read.supplyCrossed(mark, rising, now);
  }

  alarm(name: string, now: number): void {
    this.read.alarm(name, now);
    if (name === 'fade' && now >= this.fadesAt) {
      this.lost = true;
      this.strobe = 'no';
      this.pulse = undefined;
    }
  }

  settled(levels: Partly, pulls: Uint8Array): 'working' | 'resting' | undefined {
    return this.pulse || activeIn(levels, this.writeBits) !== 'no' ? undefined : this.read.settled(levels, pulls);
  }

  mayPull(levels: Partly, may: Uint8Array): 'working' | 'resting' | undefined {
    return this.pulse || activeIn(levels, this.writeBits) !== 'no' ? undefined : this.read.mayPull(levels, may);
  }

  state(): ChipState {
    const on = this.read.onBus();
    const doing = !this.read.alive()
      ? 'no supply'
      : this.strobe === 'yes'
        ? 'storing'
        : on === 'yes'
          ? 'reading'
          : on === 'perhaps'
            ? 'waiting'
            : this.strobe === 'no' && allActive(this.bench, this.pins.select) === 'yes'
              ? 'ready to write'
              : 'high-impedance';
    return { doing, address: this.read.address(), ...(this.read.shown() ? { data: this.read.shown() } : {}) };
  }

  contents(): Readonly<Record<string, string>> | undefined {
    return this.lost ? {} : contentsOf(this.store, true);
  }

  cells(): PlanCells | undefined {
    return this.lost ? undefined : stateOf({ uncertain: doubtsOf(this.store) });
  }

  private writing(): 'yes' | 'no' | 'perhaps' {
    return this.read.alive() && !this.lost ? allActive(this.bench, this.writes) : 'no';
  }

  /** A stretch with one address ends: the cells keep what the data pins have shown for long enough. */
  private endStretch(p: Pulse, now: number): void {
    const from = Math.max(p.low ?? now, this.read.addressAt());
    const width = now - from;
    const seen = gather(this.bench, this.pins.data);
    const young = this.movedAt.reduce((mask, at, bit) => (now - at < this.timing.dataSetup ? mask | (1 << bit) : mask), 0);
    p.address = this.read.address();
    p.dataSetup = now - Math.max(...this.movedAt);
    p.data = { value: seen.value & ~young, unknown: seen.unknown | young };
    p.sure =
      p.low !== undefined &&
      width >= this.timing.pulseLeast &&
      now - this.read.addressAt() >= this.timing.addressToEnd &&
      this.read.address().unknown === 0;
    writeCells(this.store, p.address, p.data, p.sure);
  }

  /** Between the levels it may be written to or not: whatever stands on the pins may be stored where the address points. */
  private mayStore(): void {
    writeCells(this.store, this.read.address(), gather(this.bench, this.pins.data), false);
  }

  private report(p: Pulse, now: number): void {
    const guaranteedLow = p.low === undefined ? 0 : (p.leftLow ?? now) - p.low;
    const faults: WriteFault[] = [];
    if (p.low === undefined) faults.push({ fault: 'never-guaranteed-low' });
    if (guaranteedLow < this.timing.pulseLeast)
      faults.push({ fault: 'pulse-short', measured: guaranteedLow, limit: this.timing.pulseLeast, source: this.source });
    if (p.addressSetup < this.timing.addressSetup)
      faults.push({ fault: 'address-setup', measured: p.addressSetup, limit: this.timing.addressSetup, source: this.source });
    if (p.dataSetup < this.timing.dataSetup)
      faults.push({ fault: 'data-setup', measured: p.dataSetup, limit: this.timing.dataSetup, source: this.source });
    if (p.address.unknown) faults.push({ fault: 'address-unknown' });
    if (p.movedAt !== undefined && p.low !== undefined)
      faults.push({ fault: 'address-hold', measured: p.movedAt - p.low, limit: (p.leftLow ?? now) - p.low, source: this.source });
    if (p.data.unknown && p.dataSetup >= this.timing.dataSetup) faults.push({ fault: 'data-unknown' });
    const dataLeft = Math.min(...this.movedAt.filter((at) => at > (p.leftLow ?? now)));
    if (dataLeft < now + this.timing.dataHold)
      faults.push({ fault: 'data-hold', measured: dataLeft - now, limit: this.timing.dataHold, source: this.source });
    this.bench.report({
      what: 'write',
      part: this.bench.part,
      time: p.leftHigh,
      outcome: p.sure && faults.length === 0 ? 'stored' : 'uncertain',
      faults,
      address: { ...p.address, bits: this.pins.address.length },
      data: p.data,
      guaranteedLow,
      maximumLow: now - p.leftHigh,
      times: [
        { time: 'address-setup', measured: p.addressSetup, limit: this.timing.addressSetup },
        { time: 'data-setup', measured: p.dataSetup, limit: this.timing.dataSetup },
        ...(dataLeft < now ? [{ time: 'data-hold', measured: dataLeft - now, limit: this.timing.dataHold } as const] : []),
      ],
      limits: { least: this.timing.pulseLeast, source: this.source },
    });
  }

  private openPulse(now: number): Pulse {
    return {
      leftHigh: now,
      addressSetup: now - this.read.addressAt(),
      address: this.read.address(),
      data: { value: 0, unknown: 0xff },
      dataSetup: 0,
      sure: false,
    };
  }

  /** Found at the beginning, or as the supply comes up, in the middle of a write. */
  private findStrobe(now: number): void {
    this.strobe = this.writing();
    this.pulse = this.strobe === 'no' ? undefined : this.openPulse(now);
    if (this.pulse && this.strobe === 'yes') this.pulse.low = now;
  }

  private strobeMoved(to: typeof this.strobe, now: number): void {
    const from = this.strobe;
    this.strobe = to;
    if (from === 'no') this.pulse = this.openPulse(now);
    if (!this.pulse) return;
    if (to === 'yes') {
      this.pulse.low ??= now;
      delete this.pulse.leftLow;
    } else if (from === 'yes') {
      this.pulse.leftLow = now;
      this.endStretch(this.pulse, now);
    }
    if (to === 'no') {
      // never guaranteed low: it may have written what was on the data pins
      if (this.pulse.low === undefined) this.endStretch(this.pulse, now);
      else this.mayStore();
      this.report(this.pulse, now);
      this.pulse = undefined;
    }
  }
}

export const staticFigures = (t: StaticTiming): Figure[] => [
  { name: 'access time', value: t.access, unit: 's', source: t.source },
  { name: 'output enable time', value: t.outputEnable, unit: 's', source: t.source },
  { name: 'output float time', value: t.float, unit: 's', source: t.source },
  { name: 'write pulse, least', value: t.pulseLeast, unit: 's', source: t.writeSource },
  { name: 'address before end of write', value: t.addressToEnd, unit: 's', source: t.writeSource },
  { name: 'data set-up', value: t.dataSetup, unit: 's', source: t.writeSource },
  { name: 'data hold', value: t.dataHold, unit: 's', source: t.writeSource },
  { name: 'supply at which contents are kept', value: 2, unit: 'V', source: 'SOURCES.md S6' },
];
