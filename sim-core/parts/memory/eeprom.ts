/** The behaviour of a byte-wide EEPROM, described by data: byte writes latched on the strobe's edges, write protection by supply, clearing the whole chip. */
import type { PlanCells } from '../../../shared/plan.ts';
import type { Partly } from '../../units/hex.ts';
import { supplyHysteresis } from '../logic/supply-hysteresis.ts';
import type { Chip, ChipBench, ChipState, Level, WriteFault } from '../part.ts';
import { doubtsOf, stateOf } from './cell-state.ts';
import { contentsOf, makeCells, readCells } from './cells.ts';
import { type LoadingTraits, PageBuffer } from './page-buffer.ts';
import { ALIVE, gather, ReadPath } from './read-path.ts';
import { checkStrobe, guaranteedLow, maximumLow, openPulse, type Pulse, reachable, strobeLevel, timesOf } from './strobe.ts';
import type { EepromTiming } from './timing.ts';

/** Positions in the chip's list of inputs. */
export interface EepromInputs {
  readonly address: readonly number[];
  readonly data: readonly number[];
  readonly chipEnable: number;
  readonly outputEnable: number;
  readonly writeEnable: number;
}

/** What one EEPROM has that another has not. */
export interface EepromTraits extends Omit<LoadingTraits, 'cycle'> {
  readonly timing: EepromTiming;
  /** which of ChipSpec.marks is passed by /OE for erasing the whole chip, and how long /WE must be low then [s] */
  readonly chipErase?: { readonly mark: number; readonly pulse: number };
  /** which mark is passed by A9 for reaching more bytes, at which address they appear, how many they are */
  readonly identification?: { readonly mark: number; readonly at: number; readonly bytes: number };
}

/** A fault of a pulse after which the cells are left as they were. */
const IGNORED: ReadonlySet<WriteFault['fault']> = new Set(['busy', 'output-enable-low', 'supply-low', 'just-powered', 'protected']);
/** A fault that may have kept the memory from writing, which says nothing against the byte. */
const MAY_STOP: ReadonlySet<WriteFault['fault']> = new Set(['output-enable-setup', 'output-enable-hold']);
const HARMLESS: ReadonlySet<WriteFault['fault']> = new Set(['pulse-long', 'worn']);
/** A row of a plan past the last cell, for what is no cell: its first byte says whether the memory is protected. */
const FLAGS = 16;

/** Bytes that a plan keeps past the last address. */
export const bytesBeyond = ({ identification, protection }: Pick<EepromTraits, 'identification' | 'protection'>): number =>
  (identification?.bytes ?? 0) + (protection ? FLAGS : 0);

/** written: how often every cell had been written before. */
export class EepromChip implements Chip {
  private readonly bench: ChipBench;
  private readonly pins: EepromInputs;
  private readonly traits: EepromTraits;
  private readonly timing: EepromTiming;
  private identification: { readonly mark: number; readonly at: number; readonly bytes: number } | undefined;
  private readonly size: number;
  private readonly store: import('./cells.ts').Cells;
  private readonly loading: PageBuffer;
  private readonly writable: import('../logic/supply-hysteresis.ts').SupplyHysteresis;
  // times [s]; −∞: long ago
  private readonly addressAt: number[];
  private dataAt = Number.NEGATIVE_INFINITY;
  private outputEnableAt = Number.NEGATIVE_INFINITY;
  private writableFrom = Number.NEGATIVE_INFINITY;
  private strobe: Level = 'H';
  /** /WE and /CE among all inputs, either of which keeps the strobe high */
  private readonly strobeBits: number;
  private pulse: Pulse | undefined;
  private eraseFrom: number | undefined;
  private wasOnBus = false;
  private readonly read: ReadPath;
  /** so long after the strobe is high again nothing that belongs to the write may move [s] */
  private readonly hold: number;

  constructor(
    bench: ChipBench,
    pins: EepromInputs,
    traits: EepromTraits,
    contents: Readonly<Record<string, string>> | undefined,
    written = 0,
  ) {
    this.bench = bench;
    this.pins = pins;
    this.traits = traits;
    const { timing, identification } = this.traits;
    this.timing = timing;
    this.identification = identification;
    this.size = 1 << this.pins.address.length;
    this.strobeBits = (1 << this.pins.writeEnable) | (1 << this.pins.chipEnable);
    const flags = this.size + (this.identification?.bytes ?? 0);
    this.store = makeCells(this.pins.address.length, contents, undefined, bytesBeyond(this.traits), this.bench.cells);
    this.loading = new PageBuffer(this.bench, this.store, flags, { ...this.traits, cycle: this.timing.cycle }, written);
    this.writable = supplyHysteresis(this.bench, this.timing.writeInhibit);
    this.addressAt = this.pins.address.map(() => Number.NEGATIVE_INFINITY);
    this.read = new ReadPath(
      this.bench,
      {
        address: this.pins.address,
        select: [{ input: this.pins.chipEnable, active: 'L' }],
        outputEnable: { input: this.pins.outputEnable, active: 'L' },
        writeEnable: { input: this.pins.writeEnable, active: 'L' },
      },
      this.timing,
      (address) => this.loading.polled() ?? readCells(this.store, this.reached(address)),
    );
    this.hold = Math.max(this.timing.least['data-hold'], this.timing.least['output-enable-hold']);
  }

  begin(now: number): void {
    this.strobe = strobeLevel(this.level(this.pins.writeEnable), this.level(this.pins.chipEnable));
    this.writable.begin();
    if (!this.writable.on()) this.writableFrom = Number.POSITIVE_INFINITY;
    this.read.begin(now);
  }

  levelChanged(input: number, _from: Level, now: number): void {
    const addressBit = this.pins.address.indexOf(input);
    if (addressBit >= 0) {
      this.addressAt[addressBit] = now;
      this.read.addressMoved(input, now);
      if (this.pulse?.low !== undefined && this.pulse.high === undefined) {
        if (!this.pulse.times.has('address-hold')) this.pulse.times.set('address-hold', now - this.pulse.low);
        if (now - this.pulse.low < this.timing.least['address-hold']) this.pulse.movedAddress |= 1 << addressBit;
      }
      if (this.read.onBus() !== 'no') this.read.disturb(now);
      return;
    }
    const dataBit = this.pins.data.indexOf(input);
    if (dataBit >= 0) {
      this.dataAt = now;
      if (this.pulse?.leftLow !== undefined) {
        this.pulse.dataLeft ??= now;
        if (this.pulse.high === undefined || now - this.pulse.high < this.timing.least['data-hold']) this.pulse.movedData |= 1 << dataBit;
      }
      return;
    }
    if (input === this.pins.outputEnable) {
      this.outputEnableAt = now;
      if (this.pulse?.high === undefined) this.pulse?.outputEnable.add(this.level(input));
      else if (!this.pulse.times.has('output-enable-hold')) this.pulse.times.set('output-enable-hold', now - this.pulse.high);
    }
    this.read.enableMoved(input, now);
    const to = strobeLevel(this.level(this.pins.writeEnable), this.level(this.pins.chipEnable));
    if (to !== this.strobe) this.strobeMoved(to, now);
    const onBus = this.read.onBus() === 'yes';
    if (onBus && !this.wasOnBus) this.loading.readAgain();
    this.wasOnBus = onBus;
    this.read.disturb(now);
  }

  supplyCrossed(mark: number, rising: boolean, now: number): void {
    if (mark === this.timing.writeInhibit && this.writable.crossed(rising, now)) this.writableFrom = now + this.timing.powerUp;
    this.read.supplyCrossed(mark, rising, now);
  }

  markCrossed(mark: number, _rising: boolean, now: number): void {
    if (mark === this.traits.chipErase?.mark) {
      if (!this.erasing()) this.endErase(now);
      else if (this.strobe === 'L') this.eraseFrom = now;
      this.pulse = undefined;
    }
    this.read.disturb(now);
  }

  alarm(name: string, now: number): void {
    if (name === 'close' && this.pulse?.high !== undefined && now >= this.pulse.high + this.hold) this.close(now);
    if (this.read.alarm(name, now)) this.pulse = undefined;
    if (this.writable.alarm(name, now)) {
      this.writableFrom = Number.POSITIVE_INFINITY;
      this.loading.abort();
      this.read.disturb(now);
    } else if (this.loading.alarm(name, now, this.pulse !== undefined)) this.read.disturb(now);
  }

  settled(levels: Partly, pulls: Uint8Array): 'working' | 'resting' | undefined {
    return this.isLeftAlone(levels) ? this.read.settled(levels, pulls) : undefined;
  }

  mayPull(levels: Partly, may: Uint8Array): 'working' | 'resting' | undefined {
    return this.isLeftAlone(levels) ? this.read.mayPull(levels, may) : undefined;
  }

  /** Nothing is being written, and with these levels nothing will be. */
  private isLeftAlone(levels: Partly): boolean {
    const isHigh = (levels.value & this.strobeBits) !== 0;
    return isHigh && this.pulse === undefined && this.eraseFrom === undefined && !this.loading.cycling();
  }

  state(now: number): ChipState {
    const doing = (): ChipState['doing'] => {
      if (!this.read.alive()) return 'no supply';
      if (this.eraseFrom !== undefined) return 'erasing';
      if (this.loading.polled()) return 'storing';
      const on = this.read.onBus();
      if (on === 'yes') return 'reading';
      if (on === 'perhaps') return 'waiting';
      return this.level(this.pins.chipEnable) === 'L' && this.level(this.pins.outputEnable) === 'H' && now >= this.writableFrom
        ? 'ready to write'
        : 'high-impedance';
    };
    return {
      doing: doing(),
      address: this.read.address(),
      ...(this.read.shown() ? { data: this.read.shown() } : {}),
      ...this.latchedNow(),
      ...(this.loading.cycling() ? { until: this.loading.cycleEnds() } : {}),
      wear: this.loading.mostWritten(),
    };
  }

  contents(): Readonly<Record<string, string>> | undefined {
    return contentsOf(this.store);
  }

  cells(): PlanCells | undefined {
    return stateOf({ uncertain: doubtsOf(this.store), writes: this.loading.writes() });
  }

  private level(input: number): Level {
    return this.bench.level(input);
  }

  /** Which cell an address reaches: with A9 far above its high level, bytes past the last one. */
  private reached(address: Partly): Partly {
    if (!this.identification) return address;
    const { at, bytes, mark } = this.identification;
    const within = bytes - 1;
    if ((address.value | within) !== (at | within) || address.unknown & ~within || !this.bench.above(mark)) return address;
    return { value: this.size | (address.value & within), unknown: address.unknown };
  }

  private finish(p: Pulse, now: number): void {
    // a pulse that was never guaranteed low has latched nothing: it may take whatever address stands there
    if (p.low === undefined) {
      p.address = this.reached(this.read.address());
      p.data = gather(this.bench, this.pins.data);
    }
    if (p.dataLeft !== undefined && p.high !== undefined) p.times.set('data-hold', p.dataLeft - p.high);
    const faults = checkStrobe(p, this.timing);
    if (!this.writable.on())
      faults.push({ fault: 'supply-low', measured: this.bench.supply(), limit: this.timing.writeInhibit, source: this.timing.source });
    else if (now < this.writableFrom)
      faults.push({
        fault: 'just-powered',
        measured: this.timing.powerUp - (this.writableFrom - now),
        limit: this.timing.powerUp,
        source: this.timing.source,
      });
    const filtered = maximumLow(p) < this.timing.glitch;
    const noticed = !filtered && !faults.some((f) => IGNORED.has(f.fault));
    const short = faults.some(
      (f) => f.fault === 'pulse-short' || f.fault === 'never-guaranteed-low' || f.fault === 'output-enable-unknown',
    );
    const data: Partly = { value: p.data.value & ~p.movedData, unknown: p.data.unknown | p.movedData };
    const other = p.movedAddress ? reachable(p) : undefined;
    const perhaps = faults.some((f) => MAY_STOP.has(f.fault));
    const offered = noticed ? this.loading.offer({ address: p.address, other, data, perhaps, short }, now) : undefined;
    if (offered) faults.push(...offered.faults);
    const ignored = faults.some((f) => IGNORED.has(f.fault)) || filtered || offered?.taken === 'same';
    const uncertain = !ignored && faults.some((f) => !HARMLESS.has(f.fault));
    this.bench.report({
      what: 'write',
      part: this.bench.part,
      time: p.leftHigh,
      outcome: ignored ? 'ignored' : uncertain ? 'uncertain' : 'stored',
      faults,
      address: { ...p.address, bits: this.pins.address.length },
      data: p.data,
      guaranteedLow: guaranteedLow(p),
      maximumLow: maximumLow(p),
      times: timesOf(p, this.timing),
      limits: {
        least: this.timing.pulseLeast,
        ...(this.timing.pulseMost === undefined ? {} : { most: this.timing.pulseMost }),
        source: this.timing.source,
      },
      ...(offered?.taken === 'step' ? { command: true } : {}),
    });
    if (offered) this.read.disturb(now);
  }

  private close(now: number): void {
    const p = this.pulse;
    if (p?.high === undefined) return;
    this.pulse = undefined;
    if (this.read.alive()) this.finish(p, now);
    if (this.loading.alarm('load', now, false)) this.read.disturb(now);
  }

  /** /OE far above its high level: a low strobe clears every cell. */
  private erasing(): boolean {
    return this.traits.chipErase !== undefined && this.bench.above(this.traits.chipErase.mark);
  }

  private endErase(now: number): void {
    if (this.eraseFrom === undefined || !this.traits.chipErase) return;
    const long = now - this.eraseFrom >= this.traits.chipErase.pulse;
    this.eraseFrom = undefined;
    if (!this.read.alive() || !this.writable.on() || now < this.writableFrom) return;
    for (let a = 0; a < this.size; a++) {
      if (!long) this.store.unknown[a] = (this.store.unknown[a] as number) | (~(this.store.value[a] as number) & 0xff);
      this.store.value[a] = long ? 0xff : (this.store.value[a] as number) & ~(this.store.unknown[a] as number);
      if (long) this.store.unknown[a] = 0;
    }
  }

  private strobeMoved(to: Level, now: number): void {
    const from = this.strobe;
    this.strobe = to;
    if (to !== 'L') this.endErase(now);
    if (this.erasing()) {
      this.pulse = undefined;
      if (to === 'L') this.eraseFrom = now;
      return;
    }
    if (from === 'H') {
      this.close(now);
      // a strobe that falls with the supply is no pulse
      if (!this.read.alive() || this.bench.supply() < ALIVE) return;
      this.pulse = openPulse(now, this.loading.cycling(), this.level(this.pins.outputEnable));
      if (this.level(this.pins.outputEnable) === 'H') this.pulse.times.set('output-enable-setup', now - this.outputEnableAt);
    }
    const p = this.pulse;
    if (!p) return;
    if (to === 'L') {
      if (p.low === undefined) {
        p.low = now;
        p.address = this.reached(this.read.address());
        p.times.set('address-setup', p.leftHigh - Math.max(...this.addressAt));
        for (const [bit, at] of this.addressAt.entries())
          if (p.leftHigh - at < this.timing.least['address-setup']) p.movedAddress |= 1 << bit;
      }
      delete p.leftLow;
      p.lowSince = now;
    } else if (from === 'L') {
      p.leftLow = now;
      const data = gather(this.bench, this.pins.data);
      // it may have ended at an earlier rise, with the byte that stood there then
      if (p.longest > 0) p.movedData |= (p.data.value ^ data.value) | p.data.unknown;
      p.longest = Math.max(p.longest, now - p.lowSince);
      p.data = data;
      p.times.set('data-setup', now - this.dataAt);
    }
    if (to === 'H') {
      p.high = now;
      this.bench.alarm(now + this.hold, 'close');
    }
  }

  private latchedNow(): Pick<ChipState, 'latched'> {
    if (this.pulse?.low !== undefined)
      return {
        latched: {
          address: { ...this.pulse.address, bits: this.pins.address.length },
          ...(this.pulse.leftLow === undefined ? {} : { data: this.pulse.data }),
        },
      };
    const last = this.loading.latched();
    return last ? { latched: { address: { ...last.address, bits: this.pins.address.length }, data: last.data } } : {};
  }
}
