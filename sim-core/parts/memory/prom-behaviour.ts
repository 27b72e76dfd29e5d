/** The behaviour of a memory that is programmed by pulses under a voltage far above its supply: fuse PROM, UV EPROM; and of one that never is: mask ROM. */
import { ERASED } from '../../document/memory-rows.ts';
import type { Partly } from '../../units/partial-number.ts';
import type { Chip, ChipBench, ChipState, WriteFault } from '../part.ts';
import { doubtsOf, stateOf } from './cell-state.ts';
import { contentsOf, makeCells, readCells } from './cells.ts';
import { makeProgrammableBits, type ProgrammableBits } from './programmable-bits.ts';
import { makeReadPath, type ReadPins, type ReadTiming } from './read-path.ts';

type Contents = Readonly<Record<string, string>> | undefined;
type Perhaps = 'yes' | 'no' | 'perhaps';

export interface Programming {
  /** what an unprogrammed bit reads */
  readonly erased: 0 | 1;
  /** one pulse, at least and at most, and the time after which a bit is surely programmed, in one pulse or several [s] */
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
  /** dose that surely erases it [W·s/cm²]; absent: it has no window */
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
  const read = makeReadPath(bench, pins, timing, (address) => readCells(cells, address));
  return {
    begin: read.begin,
    levelChanged(input, _from, now) {
      if (pins.address.includes(input)) {
        read.addressMoved(input, now);
        if (read.onBus() !== 'no') read.disturb(now);
      } else {
        read.enableMoved(input, now);
        read.disturb(now);
      }
    },
    supplyCrossed: read.supplyCrossed,
    alarm(name, now) {
      read.alarm(name, now);
    },
    state: () => ({ doing: readingState(read), address: read.address(), ...(read.shown() ? { data: read.shown() } : {}) }),
    contents: () => undefined,
  };
}

export function startProgrammed(bench: ChipBench, pins: ReadPins, timing: ReadTiming, p: Programming, contents: Contents): Chip {
  const cells = makeCells(pins.address.length, contents, p.erased === 1 ? ERASED : 0, 0, bench.cells);
  const gates: ProgrammableBits = makeProgrammableBits(cells, p.erased === 1 ? 0 : 1, p.whole, bench.part, bench.cells);
  const read = makeReadPath(
    bench,
    pins,
    timing,
    (address) => readCells(cells, address),
    () => p.readable?.() ?? true,
  );
  let dataAt = Number.NEGATIVE_INFINITY;
  let pulse: Pulse | undefined;
  /** how everything has stood since `since` */
  let since = 0;
  let asked: Perhaps = 'no';
  let voltage = false;
  let address: Partly = { value: 0, unknown: 0 };
  let byte: Partly = { value: 0, unknown: 0 };
  let bits: Partly = { value: 0, unknown: 0 };

  const report = (was: Pulse, now: number) => {
    const sureLow = was.low === undefined ? 0 : (was.leftLow ?? now) - was.low;
    const maybeLow = now - was.leftHigh;
    const { source } = p;
    const stored = readCells(cells, address);
    const faults: WriteFault[] = [];
    const lacking = was.voltage ? undefined : p.lacks?.();
    if (lacking) faults.push({ fault: 'no-program-voltage', ...lacking, source });
    if (sureLow < p.pulseLeast) faults.push({ fault: 'pulse-short', measured: sureLow, limit: p.pulseLeast, source });
    if (p.pulseMost !== undefined && maybeLow > p.pulseMost)
      faults.push({ fault: 'pulse-long', measured: maybeLow, limit: p.pulseMost, source });
    if (was.addressSetup < p.setup) faults.push({ fault: 'address-setup', measured: was.addressSetup, limit: p.setup, source });
    if (was.dataSetup < p.setup) faults.push({ fault: 'data-setup', measured: was.dataSetup, limit: p.setup, source });
    if (was.moved && was.low !== undefined)
      faults.push({ fault: 'address-hold', measured: read.addressAt() - was.low, limit: sureLow, source });
    if (address.unknown) faults.push({ fault: 'address-unknown' });
    if (byte.unknown) faults.push({ fault: 'data-unknown' });
    // a bit that is to read as erased, and is programmed
    const toErased = (p.erased === 1 ? byte.value : ~byte.value) & 0xff & ~byte.unknown;
    const isErased = (p.erased === 1 ? stored.value : ~stored.value) | stored.unknown;
    if (p.wholeByte && was.voltage && toErased & ~isErased) faults.push({ fault: 'not-erased' });
    const uncertain = stored.unknown !== 0 || faults.some((f) => !HARMLESS.has(f.fault));
    bench.report({
      what: 'write',
      part: bench.part,
      time: was.leftHigh,
      outcome: !was.voltage ? 'ignored' : uncertain ? 'uncertain' : 'stored',
      faults,
      address: { ...address, bits: pins.address.length },
      data: byte,
      sureLow,
      maybeLow,
      times: [
        { time: 'address-setup', measured: was.addressSetup, limit: p.setup },
        { time: 'data-setup', measured: was.dataSetup, limit: p.setup },
      ],
      limits: { least: p.pulseLeast, ...(p.pulseMost === undefined ? {} : { most: p.pulseMost }), source },
    });
  };

  /** Something has moved: what has stood until now has worked until now. */
  const step = (now: number) => {
    if (asked !== 'no' && voltage) gates.program(address, bits, now - since, asked === 'yes');
    const before = asked;
    asked = read.alive() ? p.asked() : 'no';
    voltage = p.voltage();
    // where a pulse cannot be told from rest without the voltage, there is none without it
    if (!voltage && !p.lacks) asked = 'no';
    if (before === 'no' && asked !== 'no')
      pulse = { leftHigh: now, voltage, addressSetup: now - read.addressAt(), dataSetup: now - dataAt, moved: false };
    if (pulse && asked === 'yes') pulse.low ??= now;
    if (pulse && before === 'yes' && asked !== 'yes') pulse.leftLow = now;
    if (pulse && asked === 'no') {
      report(pulse, now);
      pulse = undefined;
    }
    since = now;
    byte = p.byte();
    bits = p.bits();
    address = read.address();
  };

  return {
    begin(now) {
      read.begin(now);
      step(now);
    },
    levelChanged(input, _from, now) {
      if (pins.address.includes(input)) {
        read.addressMoved(input, now);
        step(now);
        if (pulse) pulse.moved = true;
        if (read.onBus() !== 'no') read.disturb(now);
        return;
      }
      if (p.isData(input)) dataAt = now;
      else read.enableMoved(input, now);
      step(now);
      if (!p.isData(input)) read.disturb(now);
    },
    supplyCrossed(mark, rising, now) {
      read.supplyCrossed(mark, rising, now);
      step(now);
    },
    markCrossed(_mark, _rising, now) {
      step(now);
      read.disturb(now);
    },
    ...(p.dose === undefined
      ? {}
      : {
          light(dose: number, now: number) {
            step(now);
            gates.erase(dose / (p.dose ?? dose));
            read.disturb(now);
          },
        }),
    alarm(name, now) {
      if (read.alarm(name, now)) step(now);
    },
    state() {
      const doing = asked === 'yes' && voltage ? 'programming' : readingState(read);
      return { doing, address: read.address(), ...(read.shown() ? { data: read.shown() } : {}) };
    },
    contents: () => contentsOf(cells, p.erased === 0),
    cells: () => stateOf({ uncertain: doubtsOf(cells), charge: gates.charges() }),
  };
}

function readingState(read: ReturnType<typeof makeReadPath>): ChipState['doing'] {
  if (!read.alive()) return 'no supply';
  const on = read.onBus();
  return on === 'yes' ? 'reading' : on === 'perhaps' ? 'waiting' : 'off the bus';
}
