/** The behaviour of a byte-wide EEPROM, described by data: reads, byte writes latched on the strobe's edges, the internal cycle, write protection. */
import { OFF, PULL_HIGH, PULL_LOW } from '../../devices/network.ts';
import type { Chip, ChipBench, ChipState, Level, WriteFault } from '../part.ts';
import { contentsOf, eachAddress, makeCells, type Partly, readCells } from './cells.ts';
import { judge, maybeLow, openPulse, type Pulse, strobeLevel, sureLow } from './strobe.ts';
import type { EepromTiming } from './timing.ts';

/** Positions in the chip's list of inputs. */
export interface EepromInputs {
  readonly address: readonly number[];
  readonly data: readonly number[];
  readonly chipEnable: number;
  readonly outputEnable: number;
  readonly writeEnable: number;
}

/** Supply at which the chip does anything at all [V]; from memory. */
export const ALIVE = 2;

/** A fault of a pulse after which the cells are left as they were. */
const IGNORED: ReadonlySet<WriteFault['fault']> = new Set(['busy', 'output-enable-low', 'supply-low', 'just-powered']);
const HARMLESS: ReadonlySet<WriteFault['fault']> = new Set(['pulse-long']);

export function startEeprom(
  bench: ChipBench,
  pins: EepromInputs,
  timing: EepromTiming,
  contents: Readonly<Record<string, string>> | undefined,
): Chip {
  const cells = makeCells(pins.address.length, contents);
  const level = (input: number): Level => bench.level(input);
  const gather = (inputs: readonly number[]): Partly => {
    let value = 0;
    let unknown = 0;
    for (const [bit, input] of inputs.entries()) {
      const l = level(input);
      if (l === 'H') value |= 1 << bit;
      else if (l === 'X') unknown |= 1 << bit;
    }
    return { value, unknown };
  };

  // times of the last changes [s]; −∞: long ago
  let addressAt = Number.NEGATIVE_INFINITY;
  let chipEnableAt = Number.NEGATIVE_INFINITY;
  let outputEnableAt = Number.NEGATIVE_INFINITY;
  let dataAt = Number.NEGATIVE_INFINITY;
  let writableFrom = Number.NEGATIVE_INFINITY;
  let addressBefore: Partly = { value: 0, unknown: 0 };
  let addressNow: Partly = { value: 0, unknown: 0 };
  let strobe: Level = 'H';
  let pulse: Pulse | undefined;
  let storing: { readonly address: Partly; readonly other: Partly | undefined; readonly data: Partly; readonly sure: boolean } | undefined;
  let settledAt = Number.NEGATIVE_INFINITY;
  let shown: Partly | undefined;

  const alive = () => bench.supply() >= ALIVE;

  /** yes, no or perhaps: do the outputs drive the bus? */
  const enabled = (): Level => {
    if (!alive() || level(pins.chipEnable) === 'H' || level(pins.outputEnable) === 'H' || level(pins.writeEnable) === 'L') return 'L';
    return level(pins.chipEnable) === 'L' && level(pins.outputEnable) === 'L' && level(pins.writeEnable) === 'H' ? 'H' : 'X';
  };

  /** What the cells say at this address; during the internal cycle only the last bit, inverted, is known. */
  const wanted = (): Partly =>
    storing
      ? { value: ~storing.data.value & 0x80 & ~storing.data.unknown, unknown: 0x7f | (storing.data.unknown & 0x80) }
      : readCells(cells, addressNow);

  const present = () => {
    const on = enabled();
    const byte = wanted();
    shown = on === 'L' ? undefined : on === 'H' ? byte : { value: 0, unknown: 0xff };
    for (let bit = 0; bit < 8; bit++) {
      const known = on === 'L' || (on === 'H' && !((byte.unknown >> bit) & 1));
      bench.drive(bit, on !== 'H' || !known ? OFF : (byte.value >> bit) & 1 ? PULL_HIGH : PULL_LOW, known);
    }
    bench.draw(alive() && level(pins.chipEnable) === 'L' ? 'working' : 'resting');
  };

  /** Outputs are unknown from now until the access times have run off; what they pull stays until then. */
  const disturb = (now: number) => {
    const on = enabled();
    settledAt =
      on === 'L'
        ? now + timing.float
        : Math.max(now, addressAt + timing.access, chipEnableAt + timing.chipEnable, outputEnableAt + timing.outputEnable);
    if (!alive()) {
      present();
      return;
    }
    for (let bit = 0; bit < 8; bit++) bench.doubt(bit);
    shown = on === 'L' ? undefined : { value: 0, unknown: 0xff };
    bench.alarm(settledAt, 'outputs');
  };

  const blend = (address: Partly, data: Partly, sure: boolean) =>
    eachAddress(address, (a) => {
      const before = cells.value[a] as number;
      const doubt = sure ? data.unknown : data.unknown | (before ^ data.value) | (cells.unknown[a] as number);
      cells.value[a] = (sure ? data.value : before) & ~doubt;
      cells.unknown[a] = doubt;
    });

  const finish = (p: Pulse, now: number) => {
    // a pulse that was never surely low has latched nothing: it may take whatever address stands there
    if (p.low === undefined) p.address = addressNow;
    const faults = judge(p, timing);
    if (bench.supply() < timing.writeInhibit)
      faults.push({ fault: 'supply-low', measured: bench.supply(), limit: timing.writeInhibit, source: timing.source });
    else if (now < writableFrom)
      faults.push({ fault: 'just-powered', measured: timing.powerUp - (writableFrom - now), limit: timing.powerUp, source: timing.source });
    const filtered = maybeLow(p) < timing.glitch;
    const ignored = filtered || faults.some((f) => IGNORED.has(f.fault));
    const uncertain = !ignored && faults.some((f) => !HARMLESS.has(f.fault));
    bench.report({
      what: 'write',
      part: bench.part,
      time: p.leftHigh,
      outcome: ignored ? 'ignored' : uncertain ? 'uncertain' : 'stored',
      faults,
      address: p.address,
      data: p.data,
      sureLow: sureLow(p),
      maybeLow: maybeLow(p),
      addressSetup: p.addressSetup,
      dataSetup: p.dataSetup,
      limits: {
        least: timing.pulseLeast,
        ...(timing.pulseMost === undefined ? {} : { most: timing.pulseMost }),
        source: timing.source,
      },
    });
    if (ignored) return;
    const tooShort = faults.some((f) => f.fault === 'pulse-short' || f.fault === 'output-enable-unknown');
    const data: Partly = tooShort
      ? { value: 0, unknown: 0xff }
      : { value: p.data.value & ~p.movedData, unknown: p.data.unknown | p.movedData };
    storing = { address: p.address, other: p.otherAddress, data, sure: p.address.unknown === 0 && !p.otherAddress };
    bench.alarm(now + timing.cycle, 'cycle');
    disturb(now);
  };

  const close = (now: number) => {
    const p = pulse;
    if (p?.high === undefined) return;
    pulse = undefined;
    if (alive()) finish(p, now);
  };

  const strobeMoved = (to: Level, now: number) => {
    const from = strobe;
    strobe = to;
    if (from === 'H') {
      close(now);
      pulse = openPulse(now, storing !== undefined, level(pins.outputEnable));
    }
    const p = pulse;
    if (!p) return;
    if (to === 'L') {
      if (p.low === undefined) {
        p.low = now;
        p.address = addressNow;
        p.addressSetup = p.leftHigh - addressAt;
        if (p.addressSetup < timing.addressSetup) p.otherAddress = addressBefore;
      }
      delete p.leftLow;
    } else if (from === 'L') {
      p.leftLow = now;
      p.data = gather(pins.data);
      p.dataSetup = now - dataAt;
    }
    if (to === 'H') {
      p.high = now;
      bench.alarm(now + timing.dataHold, 'close');
    }
  };

  return {
    begin(now) {
      addressNow = gather(pins.address);
      addressBefore = addressNow;
      strobe = strobeLevel(level(pins.writeEnable), level(pins.chipEnable));
      if (bench.supply() < timing.writeInhibit) writableFrom = Number.POSITIVE_INFINITY;
      settledAt = now;
      present();
    },
    levelChanged(input, _from, now) {
      if (pins.address.includes(input)) {
        addressBefore = addressNow;
        addressNow = gather(pins.address);
        addressAt = now;
        if (pulse?.low !== undefined && pulse.high === undefined && now - pulse.low < timing.addressHold && !pulse.otherAddress) {
          pulse.faults.push({ fault: 'address-hold', measured: now - pulse.low, limit: timing.addressHold, source: timing.source });
          pulse.otherAddress = addressNow;
        }
        if (enabled() !== 'L') disturb(now);
        return;
      }
      const dataBit = pins.data.indexOf(input);
      if (dataBit >= 0) {
        dataAt = now;
        if (pulse?.leftLow !== undefined) {
          if (pulse.movedData === 0)
            pulse.faults.push({ fault: 'data-hold', measured: now - (pulse.high ?? now), limit: timing.dataHold, source: timing.source });
          pulse.movedData |= 1 << dataBit;
        }
        return;
      }
      if (input === pins.chipEnable) chipEnableAt = now;
      if (input === pins.outputEnable) {
        outputEnableAt = now;
        if (pulse && pulse.high === undefined) pulse.outputEnable.add(level(input));
      }
      if (input === pins.writeEnable) outputEnableAt = Math.max(outputEnableAt, now);
      const to = strobeLevel(level(pins.writeEnable), level(pins.chipEnable));
      if (to !== strobe) strobeMoved(to, now);
      disturb(now);
    },
    supplyCrossed(mark, rising, now) {
      if (mark === timing.writeInhibit) {
        writableFrom = rising ? now + timing.powerUp : Number.POSITIVE_INFINITY;
        if (!rising && storing) {
          blend(storing.address, { value: 0, unknown: 0xff }, true);
          storing = undefined;
        }
      }
      disturb(now);
    },
    alarm(name, now) {
      if (name === 'close') {
        if (pulse?.high !== undefined && now >= pulse.high + timing.dataHold) close(now);
      } else if (name === 'cycle' && storing) {
        const { address, other, data, sure } = storing;
        storing = undefined;
        blend(address, data, sure);
        if (other) blend(other, data, false);
        disturb(now);
      } else if (name === 'outputs' && now >= settledAt) present();
    },
    state(now) {
      const doing = (): ChipState['doing'] => {
        if (!alive()) return 'no supply';
        if (storing) return 'storing';
        const on = enabled();
        if (on === 'H') return 'reading';
        if (on === 'X') return 'waiting';
        return level(pins.chipEnable) === 'L' && level(pins.outputEnable) === 'H' && now >= writableFrom ? 'ready to write' : 'off the bus';
      };
      return { doing: doing(), address: addressNow, ...(shown ? { data: shown } : {}) };
    },
    contents: () => contentsOf(cells),
  };
}
