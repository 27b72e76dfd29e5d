/** The behaviour of a byte-wide EEPROM, described by data: byte writes latched on the strobe's edges, write protection by supply, clearing the whole chip. */
import type { Partly } from '../../units/partial-number.ts';
import { supplyHysteresis } from '../logic/supply-hysteresis.ts';
import type { Chip, ChipBench, ChipState, Level, WriteFault } from '../part.ts';
import { doubtsOf, stateOf } from './cell-state.ts';
import { contentsOf, makeCells, readCells } from './cells.ts';
import { type LoadingTraits, makePageBuffer } from './page-buffer.ts';
import { ALIVE, gather, makeReadPath } from './read-path.ts';
import { checkStrobe, maybeLow, openPulse, type Pulse, reachable, strobeLevel, sureLow, timesOf } from './strobe.ts';
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
export function startEeprom(
  bench: ChipBench,
  pins: EepromInputs,
  traits: EepromTraits,
  contents: Readonly<Record<string, string>> | undefined,
  written = 0,
): Chip {
  const { timing, identification } = traits;
  const size = 1 << pins.address.length;
  const flags = size + (identification?.bytes ?? 0);
  const cells = makeCells(pins.address.length, contents, undefined, bytesBeyond(traits), bench.cells);
  const loading = makePageBuffer(bench, cells, flags, { ...traits, cycle: timing.cycle }, written);
  const level = (input: number): Level => bench.level(input);
  const writable = supplyHysteresis(bench, timing.writeInhibit);

  // times [s]; −∞: long ago
  const addressAt = pins.address.map(() => Number.NEGATIVE_INFINITY);
  let dataAt = Number.NEGATIVE_INFINITY;
  let outputEnableAt = Number.NEGATIVE_INFINITY;
  let writableFrom = Number.NEGATIVE_INFINITY;
  let strobe: Level = 'H';
  let pulse: Pulse | undefined;
  let eraseFrom: number | undefined;
  let wasOnBus = false;

  const read = makeReadPath(
    bench,
    {
      address: pins.address,
      select: [{ input: pins.chipEnable, active: 'L' }],
      outputEnable: { input: pins.outputEnable, active: 'L' },
      writeEnable: { input: pins.writeEnable, active: 'L' },
    },
    timing,
    (address) => loading.polled() ?? readCells(cells, reached(address)),
  );
  /** Which cell an address reaches: with A9 far above its high level, bytes past the last one. */
  const reached = (address: Partly): Partly => {
    if (!identification || !bench.above(identification.mark)) return address;
    const within = identification.bytes - 1;
    if ((address.value | within) !== (identification.at | within) || address.unknown & ~within) return address;
    return { value: size | (address.value & within), unknown: address.unknown };
  };

  /** so long after the strobe is high again nothing that belongs to the write may move [s] */
  const hold = Math.max(timing.least['data-hold'], timing.least['output-enable-hold']);

  const finish = (p: Pulse, now: number) => {
    // a pulse that was never surely low has latched nothing: it may take whatever address stands there
    if (p.low === undefined) {
      p.address = reached(read.address());
      p.data = gather(bench, pins.data);
    }
    if (p.dataLeft !== undefined && p.high !== undefined) p.times.set('data-hold', p.dataLeft - p.high);
    const faults = checkStrobe(p, timing);
    if (!writable.on()) faults.push({ fault: 'supply-low', measured: bench.supply(), limit: timing.writeInhibit, source: timing.source });
    else if (now < writableFrom)
      faults.push({ fault: 'just-powered', measured: timing.powerUp - (writableFrom - now), limit: timing.powerUp, source: timing.source });
    const filtered = maybeLow(p) < timing.glitch;
    const noticed = !filtered && !faults.some((f) => IGNORED.has(f.fault));
    const short = faults.some((f) => f.fault === 'pulse-short' || f.fault === 'never-sure-low' || f.fault === 'output-enable-unknown');
    const data: Partly = { value: p.data.value & ~p.movedData, unknown: p.data.unknown | p.movedData };
    const other = p.movedAddress ? reachable(p) : undefined;
    const perhaps = faults.some((f) => MAY_STOP.has(f.fault));
    const offered = noticed ? loading.offer({ address: p.address, other, data, perhaps, short }, now) : undefined;
    if (offered) faults.push(...offered.faults);
    const ignored = faults.some((f) => IGNORED.has(f.fault)) || filtered || offered?.taken === 'same';
    const uncertain = !ignored && faults.some((f) => !HARMLESS.has(f.fault));
    bench.report({
      what: 'write',
      part: bench.part,
      time: p.leftHigh,
      outcome: ignored ? 'ignored' : uncertain ? 'uncertain' : 'stored',
      faults,
      address: { ...p.address, bits: pins.address.length },
      data: p.data,
      sureLow: sureLow(p),
      maybeLow: maybeLow(p),
      times: timesOf(p, timing),
      limits: {
        least: timing.pulseLeast,
        ...(timing.pulseMost === undefined ? {} : { most: timing.pulseMost }),
        source: timing.source,
      },
      ...(offered?.taken === 'step' ? { command: true } : {}),
    });
    if (offered) read.disturb(now);
  };

  const close = (now: number) => {
    const p = pulse;
    if (p?.high === undefined) return;
    pulse = undefined;
    if (read.alive()) finish(p, now);
    if (loading.alarm('load', now, false)) read.disturb(now);
  };

  /** /OE far above its high level: a low strobe clears every cell. */
  const erasing = () => traits.chipErase !== undefined && bench.above(traits.chipErase.mark);
  const endErase = (now: number) => {
    if (eraseFrom === undefined || !traits.chipErase) return;
    const long = now - eraseFrom >= traits.chipErase.pulse;
    eraseFrom = undefined;
    if (!read.alive() || !writable.on() || now < writableFrom) return;
    for (let a = 0; a < size; a++) {
      if (!long) cells.unknown[a] = (cells.unknown[a] as number) | (~(cells.value[a] as number) & 0xff);
      cells.value[a] = long ? 0xff : (cells.value[a] as number) & ~(cells.unknown[a] as number);
      if (long) cells.unknown[a] = 0;
    }
  };

  const strobeMoved = (to: Level, now: number) => {
    const from = strobe;
    strobe = to;
    if (to !== 'L') endErase(now);
    if (erasing()) {
      pulse = undefined;
      if (to === 'L') eraseFrom = now;
      return;
    }
    if (from === 'H') {
      close(now);
      // a strobe that falls with the supply is no pulse
      if (!read.alive() || bench.supply() < ALIVE) return;
      pulse = openPulse(now, loading.cycling(), level(pins.outputEnable));
      if (level(pins.outputEnable) === 'H') pulse.times.set('output-enable-setup', now - outputEnableAt);
    }
    const p = pulse;
    if (!p) return;
    if (to === 'L') {
      if (p.low === undefined) {
        p.low = now;
        p.address = reached(read.address());
        p.times.set('address-setup', p.leftHigh - Math.max(...addressAt));
        for (const [bit, at] of addressAt.entries()) if (p.leftHigh - at < timing.least['address-setup']) p.movedAddress |= 1 << bit;
      }
      delete p.leftLow;
      p.lowSince = now;
    } else if (from === 'L') {
      p.leftLow = now;
      const data = gather(bench, pins.data);
      // it may have ended at an earlier rise, with the byte that stood there then
      if (p.longest > 0) p.movedData |= (p.data.value ^ data.value) | p.data.unknown;
      p.longest = Math.max(p.longest, now - p.lowSince);
      p.data = data;
      p.times.set('data-setup', now - dataAt);
    }
    if (to === 'H') {
      p.high = now;
      bench.alarm(now + hold, 'close');
    }
  };

  const latchedNow = (): Pick<ChipState, 'latched'> => {
    if (pulse?.low !== undefined)
      return {
        latched: { address: { ...pulse.address, bits: pins.address.length }, ...(pulse.leftLow === undefined ? {} : { data: pulse.data }) },
      };
    const last = loading.latched();
    return last ? { latched: { address: { ...last.address, bits: pins.address.length }, data: last.data } } : {};
  };

  return {
    begin(now) {
      strobe = strobeLevel(level(pins.writeEnable), level(pins.chipEnable));
      writable.begin();
      if (!writable.on()) writableFrom = Number.POSITIVE_INFINITY;
      read.begin(now);
    },
    levelChanged(input, _from, now) {
      const addressBit = pins.address.indexOf(input);
      if (addressBit >= 0) {
        addressAt[addressBit] = now;
        read.addressMoved(input, now);
        if (pulse?.low !== undefined && pulse.high === undefined) {
          if (!pulse.times.has('address-hold')) pulse.times.set('address-hold', now - pulse.low);
          if (now - pulse.low < timing.least['address-hold']) pulse.movedAddress |= 1 << addressBit;
        }
        if (read.onBus() !== 'no') read.disturb(now);
        return;
      }
      const dataBit = pins.data.indexOf(input);
      if (dataBit >= 0) {
        dataAt = now;
        if (pulse?.leftLow !== undefined) {
          pulse.dataLeft ??= now;
          if (pulse.high === undefined || now - pulse.high < timing.least['data-hold']) pulse.movedData |= 1 << dataBit;
        }
        return;
      }
      if (input === pins.outputEnable) {
        outputEnableAt = now;
        if (pulse?.high === undefined) pulse?.outputEnable.add(level(input));
        else if (!pulse.times.has('output-enable-hold')) pulse.times.set('output-enable-hold', now - pulse.high);
      }
      read.enableMoved(input, now);
      const to = strobeLevel(level(pins.writeEnable), level(pins.chipEnable));
      if (to !== strobe) strobeMoved(to, now);
      const onBus = read.onBus() === 'yes';
      if (onBus && !wasOnBus) loading.readAgain();
      wasOnBus = onBus;
      read.disturb(now);
    },
    supplyCrossed(mark, rising, now) {
      if (mark === timing.writeInhibit && writable.crossed(rising, now)) writableFrom = now + timing.powerUp;
      read.supplyCrossed(mark, rising, now);
    },
    markCrossed(mark, _rising, now) {
      if (mark === traits.chipErase?.mark) {
        if (!erasing()) endErase(now);
        else if (strobe === 'L') eraseFrom = now;
        pulse = undefined;
      }
      read.disturb(now);
    },
    alarm(name, now) {
      if (name === 'close' && pulse?.high !== undefined && now >= pulse.high + hold) close(now);
      if (read.alarm(name, now)) pulse = undefined;
      if (writable.alarm(name, now)) {
        writableFrom = Number.POSITIVE_INFINITY;
        loading.abort();
        read.disturb(now);
      } else if (loading.alarm(name, now, pulse !== undefined)) read.disturb(now);
    },
    state(now) {
      const doing = (): ChipState['doing'] => {
        if (!read.alive()) return 'no supply';
        if (eraseFrom !== undefined) return 'erasing';
        if (loading.polled()) return 'storing';
        const on = read.onBus();
        if (on === 'yes') return 'reading';
        if (on === 'perhaps') return 'waiting';
        return level(pins.chipEnable) === 'L' && level(pins.outputEnable) === 'H' && now >= writableFrom ? 'ready to write' : 'off the bus';
      };
      return {
        doing: doing(),
        address: read.address(),
        ...(read.shown() ? { data: read.shown() } : {}),
        ...latchedNow(),
        ...(loading.cycling() ? { until: loading.cycleEnds() } : {}),
        wear: loading.mostWritten(),
      };
    },
    contents: () => contentsOf(cells),
    cells: () => stateOf({ uncertain: doubtsOf(cells), writes: loading.writes() }),
  };
}
