/** The behaviour of a memory that is programmed by pulses under a voltage far above its supply: fuse PROM, UV EPROM; and of one that never is: mask ROM. */
import type { PlanCells } from '../../../shared/plan.ts';
import { ERASED } from '../../document/memory-rows.ts';
import type { Partly } from '../../units/hex.ts';
import type { Chip, ChipBench, ChipState, Level, WriteFault } from '../part.ts';
import { doubtsOf, stateOf } from './cell-state.ts';
import { contentsOf, makeCells, readCells } from './cells.ts';
import { makeProgrammableBits, type ProgrammableBits } from './programmable-bits.ts';
import { ReadPath, type ReadPins, type ReadTiming } from './read-path.ts';

type Contents = Readonly<Record<string, string>> | undefined;
type Perhaps = 'yes' | 'no' | 'perhaps';

export interface Programming {
  /** what an unprogrammed bit reads */
  readonly erased: 0 | 1;
  /** one pulse, at least and at most, and the time after which a bit is programmed for certain, in one pulse or several [s] */
  readonly pulseLeast: number;
  readonly pulseMost?: number;
  readonly whole: number;
  /** address and data stand still so long before the pulse [s] */
  readonly setup: number;
  readonly source: string;
  /** do the control pins ask for programming, and is the voltage for it there? */
  asked(): Perhaps;
  voltage(): boolean;
  /** the voltage that is missing when a pulse comes without it; absent: without it nothing shows that a pulse was meant */
  lacks?(): { readonly measured: number; readonly limit: number };
  /** the byte as it stands on the pins, and which bits the pulse is for; `wholeByte`: the others are to stay, or to read, unprogrammed */
  byte(): Partly;
  readonly wholeByte?: true;
  bits(): Partly;
  /** what is read is sure only while this holds */
  readable?(): boolean;
  /** dose that erases it for certain [W·s/cm²]; absent: it has no window */
  readonly dose?: number;
  /** a pin that is not an address has moved: is it one whose moment counts as the data's? */
  isData(input: number): boolean;
}

interface Pulse {
  readonly leftHigh: number;
  readonly voltage: boolean;
  readonly addressSetup: number;
  readonly dataSetup: number;
  low?: number;
  leftLow?: number;
  moved: boolean;
}

const HARMLESS: ReadonlySet<WriteFault['fault']> = new Set(['pulse-long']);

/** A memory that can only be read. */
export function startReadOnly(bench: ChipBench, pins: ReadPins, timing: ReadTiming, contents: Contents): Chip {
  const cells = makeCells(pins.address.length, contents);
  const read = new ReadPath(bench, pins, timing, (address) => readCells(cells, address));
  return {
    begin: (now) => read.begin(now),
    levelChanged(input, _from, now) {
      if (pins.address.includes(input)) {
        read.addressMoved(input, now);
        if (read.onBus() !== 'no') read.disturb(now);
      } else {
        read.enableMoved(input, now);
        read.disturb(now);
      }
    },
    supplyCrossed: (mark, rising, now) => read.supplyCrossed(mark, rising, now),
    alarm(name, now) {
      read.alarm(name, now);
    },
    settled: (levels, pulls) => read.settled(levels, pulls),
    mayPull: (levels, may) => read.mayPull(levels, may),
    state: () => ({ doing: readingState(read), address: read.address(), ...(read.shown() ? { data: read.shown() } : {}) }),
    contents: () => undefined,
  };
}

export class PromChip implements Chip {
  private readonly bench: ChipBench;
  private readonly pins: ReadPins;
  private readonly p: Programming;
  private readonly store: import('./cells.ts').Cells;
  private readonly gates: ProgrammableBits;
  private readonly read: ReadPath;
  private dataAt = Number.NEGATIVE_INFINITY;
  private pulse: Pulse | undefined;
  /** how everything has stood since `since` */
  private since = 0;
  private asked: Perhaps = 'no';
  private voltage = false;
  private address: Partly = { value: 0, unknown: 0 };
  private byte: Partly = { value: 0, unknown: 0 };
  private bits: Partly = { value: 0, unknown: 0 };
  readonly light: ((dose: number, now: number) => void) | undefined;

  constructor(bench: ChipBench, pins: ReadPins, timing: ReadTiming, p: Programming, contents: Contents) {
    this.bench = bench;
    this.pins = pins;
    this.p = p;
    this.store = makeCells(this.pins.address.length, contents, this.p.erased === 1 ? ERASED : 0, 0, this.bench.cells);
    this.gates = makeProgrammableBits(this.store, this.p.erased === 1 ? 0 : 1, this.p.whole, this.bench.part, this.bench.cells);
    this.read = new ReadPath(
      this.bench,
      this.pins,
      timing,
      (address) => readCells(this.store, address),
      () => this.p.readable?.() ?? true,
    );
    this.light =
      this.p.dose === undefined
        ? undefined
        : (dose: number, now: number) => {
            this.step(now);
            this.gates.erase(dose / (this.p.dose ?? dose));
            this.read.disturb(now);
          };
  }

  begin(now: number): void {
    this.read.begin(now);
    this.step(now);
  }

  levelChanged(input: number, _from: Level, now: number): void {
    if (this.pins.address.includes(input)) {
      this.read.addressMoved(input, now);
      this.step(now);
      if (this.pulse) this.pulse.moved = true;
      if (this.read.onBus() !== 'no') this.read.disturb(now);
      return;
    }
    if (this.p.isData(input)) this.dataAt = now;
    else this.read.enableMoved(input, now);
    this.step(now);
    if (!this.p.isData(input)) this.read.disturb(now);
  }

  supplyCrossed(mark: number, rising: boolean, now: number): void {
    this.read.supplyCrossed(mark, rising, now);
    this.step(now);
  }

  markCrossed(_mark: number, _rising: boolean, now: number): void {
    this.step(now);
    this.read.disturb(now);
  }

  alarm(name: string, now: number): void {
    if (this.read.alarm(name, now)) this.step(now);
  }

  settled(levels: Partly, pulls: Uint8Array): 'working' | 'resting' | undefined {
    return this.pulse || this.p.voltage() ? undefined : this.read.settled(levels, pulls);
  }

  mayPull(levels: Partly, may: Uint8Array): 'working' | 'resting' | undefined {
    return this.pulse || this.p.voltage() ? undefined : this.read.mayPull(levels, may);
  }

  state(): ChipState {
    const doing = this.asked === 'yes' && this.voltage ? 'programming' : readingState(this.read);
    return { doing, address: this.read.address(), ...(this.read.shown() ? { data: this.read.shown() } : {}) };
  }

  contents(): Readonly<Record<string, string>> | undefined {
    return contentsOf(this.store, this.p.erased === 0);
  }

  cells(): PlanCells | undefined {
    return stateOf({ uncertain: doubtsOf(this.store), charge: this.gates.charges() });
  }

  private report(was: Pulse, now: number): void {
    const guaranteedLow = was.low === undefined ? 0 : (was.leftLow ?? now) - was.low;
    const maximumLow = now - was.leftHigh;
    const { source } = this.p;
    const stored = readCells(this.store, this.address);
    const faults: WriteFault[] = [];
    const lacking = was.voltage ? undefined : this.p.lacks?.();
    if (lacking) faults.push({ fault: 'no-program-voltage', ...lacking, source });
    if (guaranteedLow < this.p.pulseLeast) faults.push({ fault: 'pulse-short', measured: guaranteedLow, limit: this.p.pulseLeast, source });
    if (this.p.pulseMost !== undefined && maximumLow > this.p.pulseMost)
      faults.push({ fault: 'pulse-long', measured: maximumLow, limit: this.p.pulseMost, source });
    if (was.addressSetup < this.p.setup) faults.push({ fault: 'address-setup', measured: was.addressSetup, limit: this.p.setup, source });
    if (was.dataSetup < this.p.setup) faults.push({ fault: 'data-setup', measured: was.dataSetup, limit: this.p.setup, source });
    if (was.moved && was.low !== undefined)
      faults.push({ fault: 'address-hold', measured: this.read.addressAt() - was.low, limit: guaranteedLow, source });
    if (this.address.unknown) faults.push({ fault: 'address-unknown' });
    if (this.byte.unknown) faults.push({ fault: 'data-unknown' });
    // a bit that is to read as erased, and is programmed
    const toErased = (this.p.erased === 1 ? this.byte.value : ~this.byte.value) & 0xff & ~this.byte.unknown;
    const isErased = (this.p.erased === 1 ? stored.value : ~stored.value) | stored.unknown;
    if (this.p.wholeByte && was.voltage && toErased & ~isErased) faults.push({ fault: 'not-erased' });
    const uncertain = stored.unknown !== 0 || faults.some((f) => !HARMLESS.has(f.fault));
    this.bench.report({
      what: 'write',
      part: this.bench.part,
      time: was.leftHigh,
      outcome: !was.voltage ? 'ignored' : uncertain ? 'uncertain' : 'stored',
      faults,
      address: { ...this.address, bits: this.pins.address.length },
      data: this.byte,
      guaranteedLow,
      maximumLow,
      times: [
        { time: 'address-setup', measured: was.addressSetup, limit: this.p.setup },
        { time: 'data-setup', measured: was.dataSetup, limit: this.p.setup },
      ],
      limits: { least: this.p.pulseLeast, ...(this.p.pulseMost === undefined ? {} : { most: this.p.pulseMost }), source },
    });
  }

  /** Something has moved: what has stood until now has worked until now. */
  private step(now: number): void {
    if (this.asked !== 'no' && this.voltage) this.gates.program(this.address, this.bits, now - this.since, this.asked === 'yes');
    const before = this.asked;
    this.asked = this.read.alive() ? this.p.asked() : 'no';
    this.voltage = this.p.voltage();
    // where a pulse cannot be told from rest without the voltage, there is none without it
    if (!this.voltage && !this.p.lacks) this.asked = 'no';
    if (before === 'no' && this.asked !== 'no')
      this.pulse = {
        leftHigh: now,
        voltage: this.voltage,
        addressSetup: now - this.read.addressAt(),
        dataSetup: now - this.dataAt,
        moved: false,
      };
    if (this.pulse && this.asked === 'yes') this.pulse.low ??= now;
    if (this.pulse && before === 'yes' && this.asked !== 'yes') this.pulse.leftLow = now;
    if (this.pulse && this.asked === 'no') {
      this.report(this.pulse, now);
      this.pulse = undefined;
    }
    this.since = now;
    this.byte = this.p.byte();
    this.bits = this.p.bits();
    this.address = this.read.address();
  }
}

function readingState(read: ReadPath): ChipState['doing'] {
  if (!read.alive()) return 'no supply';
  const on = read.onBus();
  return on === 'yes' ? 'reading' : on === 'perhaps' ? 'waiting' : 'high-impedance';
}
