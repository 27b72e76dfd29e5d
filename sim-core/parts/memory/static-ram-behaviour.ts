/**
 * The writing of a static RAM: while it is selected and /WE is low its cells follow the data pins, whichever level /OE has.
 * Every stretch of a pulse in which the address stands still writes to that address; without supply everything is lost.
 */
import type { Partly } from '../../units/partial-number.ts';
import type { Chip, ChipBench, Figure, WriteFault } from '../part.ts';
import { doubtsOf, stateOf } from './cell-state.ts';
import { type Cells, contentsOf, fillAtRandom, makeCells, readCells, writeCells } from './cells.ts';
import { allActive, type Enable, gather, makeReadPath, type ReadPins, type ReadTiming } from './read-path.ts';

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
  /** when it was last surely low */
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

export function startStatic(
  bench: ChipBench,
  pins: StaticPins,
  timing: StaticTiming,
  contents: Readonly<Record<string, string>> | undefined,
): Chip {
  const cells: Cells = makeCells(pins.address.length, contents, undefined, 0, bench.cells);
  const [holds, usable] = STATIC_MARKS;
  const source = timing.writeSource;
  const movedAt = pins.data.map(() => Number.NEGATIVE_INFINITY);
  let lost = false;
  let fadesAt = Number.POSITIVE_INFINITY;
  let strobe: 'yes' | 'no' | 'perhaps' = 'no';
  let pulse: Pulse | undefined;
  const read = makeReadPath(
    bench,
    pins,
    timing,
    (address) => readCells(cells, address),
    () => !lost,
  );
  const writing = () => (read.alive() && !lost ? allActive(bench, [...pins.select, pins.writeEnable]) : 'no');

  /** A stretch with one address ends: the cells keep what the data pins have shown for long enough. */
  const endStretch = (p: Pulse, now: number) => {
    const from = Math.max(p.low ?? now, read.addressAt());
    const width = now - from;
    const seen = gather(bench, pins.data);
    const young = movedAt.reduce((mask, at, bit) => (now - at < timing.dataSetup ? mask | (1 << bit) : mask), 0);
    p.address = read.address();
    p.dataSetup = now - Math.max(...movedAt);
    p.data = { value: seen.value & ~young, unknown: seen.unknown | young };
    p.sure =
      p.low !== undefined && width >= timing.pulseLeast && now - read.addressAt() >= timing.addressToEnd && read.address().unknown === 0;
    writeCells(cells, p.address, p.data, p.sure);
  };

  /** Between the levels it may be written to or not: whatever stands on the pins may be stored where the address points. */
  const mayStore = () => writeCells(cells, read.address(), gather(bench, pins.data), false);

  const report = (p: Pulse, now: number) => {
    const sureLow = p.low === undefined ? 0 : (p.leftLow ?? now) - p.low;
    const faults: WriteFault[] = [];
    if (p.low === undefined) faults.push({ fault: 'never-sure-low' });
    if (sureLow < timing.pulseLeast) faults.push({ fault: 'pulse-short', measured: sureLow, limit: timing.pulseLeast, source });
    if (p.addressSetup < timing.addressSetup)
      faults.push({ fault: 'address-setup', measured: p.addressSetup, limit: timing.addressSetup, source });
    if (p.dataSetup < timing.dataSetup) faults.push({ fault: 'data-setup', measured: p.dataSetup, limit: timing.dataSetup, source });
    if (p.address.unknown) faults.push({ fault: 'address-unknown' });
    if (p.movedAt !== undefined && p.low !== undefined)
      faults.push({ fault: 'address-hold', measured: p.movedAt - p.low, limit: (p.leftLow ?? now) - p.low, source });
    if (p.data.unknown && p.dataSetup >= timing.dataSetup) faults.push({ fault: 'data-unknown' });
    const dataLeft = Math.min(...movedAt.filter((at) => at > (p.leftLow ?? now)));
    if (dataLeft < now + timing.dataHold) faults.push({ fault: 'data-hold', measured: dataLeft - now, limit: timing.dataHold, source });
    bench.report({
      what: 'write',
      part: bench.part,
      time: p.leftHigh,
      outcome: p.sure && faults.length === 0 ? 'stored' : 'uncertain',
      faults,
      address: { ...p.address, bits: pins.address.length },
      data: p.data,
      sureLow,
      maybeLow: now - p.leftHigh,
      times: [
        { time: 'address-setup', measured: p.addressSetup, limit: timing.addressSetup },
        { time: 'data-setup', measured: p.dataSetup, limit: timing.dataSetup },
        ...(dataLeft < now ? [{ time: 'data-hold', measured: dataLeft - now, limit: timing.dataHold } as const] : []),
      ],
      limits: { least: timing.pulseLeast, source },
    });
  };

  const openPulse = (now: number): Pulse => ({
    leftHigh: now,
    addressSetup: now - read.addressAt(),
    address: read.address(),
    data: { value: 0, unknown: 0xff },
    dataSetup: 0,
    sure: false,
  });
  /** Found at the beginning, or as the supply comes up, in the middle of a write. */
  const findStrobe = (now: number) => {
    strobe = writing();
    pulse = strobe === 'no' ? undefined : openPulse(now);
    if (pulse && strobe === 'yes') pulse.low = now;
  };

  const strobeMoved = (to: typeof strobe, now: number) => {
    const from = strobe;
    strobe = to;
    if (from === 'no') pulse = openPulse(now);
    if (!pulse) return;
    if (to === 'yes') {
      pulse.low ??= now;
      delete pulse.leftLow;
    } else if (from === 'yes') {
      pulse.leftLow = now;
      endStretch(pulse, now);
    }
    if (to === 'no') {
      // never surely low: it may have written what stood there
      if (pulse.low === undefined) endStretch(pulse, now);
      else mayStore();
      report(pulse, now);
      pulse = undefined;
    }
  };

  return {
    begin(now) {
      // found in use, it holds what the plan says, and chance where the plan says nothing
      if (bench.supply() >= usable) fillAtRandom(cells, bench.part, contents, bench.cells);
      else lost = true;
      read.begin(now);
      findStrobe(now);
    },
    levelChanged(input, _from, now) {
      if (pins.address.includes(input)) {
        if (pulse && strobe === 'yes') {
          endStretch(pulse, now);
          pulse.movedAt ??= now;
        } else if (strobe === 'perhaps') mayStore();
        read.addressMoved(input, now);
        if (read.onBus() !== 'no') read.disturb(now);
        return;
      }
      const bit = pins.data.indexOf(input);
      if (bit >= 0) {
        movedAt[bit] = now;
        return;
      }
      const to = writing();
      if (to !== strobe) strobeMoved(to, now);
      read.enableMoved(input, now);
      read.disturb(now);
    },
    supplyCrossed(mark, rising, now) {
      if (mark === holds) {
        fadesAt = rising ? Number.POSITIVE_INFINITY : now + CARRIED;
        if (!rising) bench.alarm(fadesAt, 'fade');
      } else if (mark === usable && rising) {
        if (lost) {
          lost = false;
          fillAtRandom(cells, bench.part);
          findStrobe(now);
          read.disturb(now);
        }
      }
      read.supplyCrossed(mark, rising, now);
    },
    alarm(name, now) {
      read.alarm(name, now);
      if (name === 'fade' && now >= fadesAt) {
        lost = true;
        strobe = 'no';
        pulse = undefined;
      }
    },
    state() {
      const on = read.onBus();
      const doing = !read.alive()
        ? 'no supply'
        : strobe === 'yes'
          ? 'storing'
          : on === 'yes'
            ? 'reading'
            : on === 'perhaps'
              ? 'waiting'
              : strobe === 'no' && allActive(bench, pins.select) === 'yes'
                ? 'ready to write'
                : 'off the bus';
      return { doing, address: read.address(), ...(read.shown() ? { data: read.shown() } : {}) };
    },
    contents: () => (lost ? {} : contentsOf(cells, true)),
    cells: () => (lost ? undefined : stateOf({ uncertain: doubtsOf(cells) })),
  };
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
