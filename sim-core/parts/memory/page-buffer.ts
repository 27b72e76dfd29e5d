/** What an EEPROM does with a byte that has come in: page, protection sequence, internal cycle, and what can be read meanwhile. */

import type { PlanCells } from '../../../shared/plan.ts';
import { OFF, PULL_LOW } from '../../devices/network.ts';
import type { Partly } from '../../units/partial-number.ts';
import type { ChipBench, Figure, WriteFault } from '../part.ts';
import { type Cells, writeCells } from './cells.ts';
import { makeSoftwareProtection } from './software-protection.ts';
import { makeWriteCounts } from './write-counts.ts';

export interface LoadingTraits {
  /** the internal cycle [s] */
  readonly cycle: number;
  readonly endurance: Figure;
  /** so many bytes with the same upper address bits are loaded together, each within `load` [s] of the one before */
  readonly page?: { readonly bytes: number; readonly load: number };
  /** bit 6 alternates from one read to the next during the internal cycle */
  readonly toggles?: true;
  /** the two addresses of its software protection */
  readonly protection?: { readonly first: number; readonly second: number };
  /** the output that is pulled low while bytes come in and are stored */
  readonly busyOutput?: number;
}

/** A byte as it came in. */
export interface Load {
  readonly address: Partly;
  /** every address that it may be for, if that is not sure */
  readonly other: Partly | undefined;
  readonly data: Partly;
  /** true: nobody can tell whether it was written at all */
  readonly perhaps: boolean;
  /** true: the pulse was too short to take the byte for sure; each bit may be what the latch held before, or anything where nothing had come into it */
  readonly short: boolean;
}

export interface PageBuffer {
  /** does the internal cycle run, and until when [s]? */
  cycling(): boolean;
  cycleEnds(): number;
  /** the byte that came in last and is not stored yet */
  latched(): Pick<Load, 'address' | 'data'> | undefined;
  /** what is read instead of the cells, from the first byte to the end of the cycle */
  polled(): Partly | undefined;
  /** the outputs have come on the bus once more */
  readAgain(): void;
  offer(load: Load, now: number): { readonly taken: 'step' | 'byte' | 'refused' | 'same'; readonly faults: readonly WriteFault[] };
  /** after the alarms 'load' and 'cycle'; writing: a pulse is under way. True if the cells can be read again. */
  alarm(name: string, now: number, writing: boolean): boolean;
  /** the supply has failed: nobody can tell what the bytes under way have become */
  abort(): void;
  /** how often cells were written on this bench, in plan form */
  writes(): PlanCells['writes'];
  mostWritten(): { readonly address: number; readonly cycles: number };
}

/** Protection is kept past the last cell, at `flag`. */
const PROTECTED = 0x01;
const ANYTHING: Partly = { value: 0, unknown: 0xff };
const OPEN = 0xff;

/** written: how often every cell had been written before. */
export function makePageBuffer(bench: ChipBench, cells: Cells, flag: number, traits: LoadingTraits, written: number): PageBuffer {
  const { page, endurance } = traits;
  const guard = traits.protection && makeSoftwareProtection(traits.protection, cells.value[flag] === PROTECTED);
  const wearing = makeWriteCounts(cells.value.length, written, bench.cells?.writes);
  let bytes: (Load & { readonly sure: boolean })[] = [];
  /** steps of a sequence, which may turn out to be bytes */
  let steps: typeof bytes = [];
  /** the last byte; undefined: nothing is under way */
  let last: Partly | undefined;
  let lastLoad: Load | undefined;
  let toggle = false;
  let cycleEnds = Number.POSITIVE_INFINITY;
  let loadEnds = Number.POSITIVE_INFINITY;

  const busy = (is: boolean) => {
    if (traits.busyOutput !== undefined) bench.drive(traits.busyOutput, is ? PULL_LOW : OFF);
  };
  const rest = () => {
    guard?.close();
    if (guard) cells.value[flag] = guard.on ? PROTECTED : OPEN;
    cycleEnds = Number.POSITIVE_INFINITY;
    loadEnds = Number.POSITIVE_INFINITY;
    bytes = [];
    steps = [];
    last = undefined;
    lastLoad = undefined;
    busy(false);
  };
  const startCycle = (now: number) => {
    loadEnds = Number.POSITIVE_INFINITY;
    cycleEnds = now + traits.cycle;
    bench.alarm(cycleEnds, 'cycle');
  };
  const store = () => {
    if (guard?.stepsWereBytes) bytes.unshift(...steps);
    for (const { address, other, data, sure } of bytes) {
      writeCells(cells, address, data, sure);
      if (other) writeCells(cells, other, data, false);
      wearing.count(address);
    }
  };

  return {
    cycling() {
      return cycleEnds < Number.POSITIVE_INFINITY;
    },
    cycleEnds() {
      return cycleEnds;
    },
    latched() {
      return lastLoad;
    },
    polled() {
      if (!last) return undefined;
      // only the last bit, inverted, is known, and the one that toggles
      const value = (~last.value & 0x80) | (toggle ? 0x40 : 0);
      const unknown = (last.unknown & 0x80) | (traits.toggles ? 0x3f : 0x7f);
      return { value: value & ~unknown, unknown };
    },
    writes: wearing.writes,
    mostWritten() {
      return wearing.most;
    },
    readAgain() {
      toggle = !toggle;
    },
    offer(load, now) {
      const faults: WriteFault[] = [];
      const { address, other, perhaps, short } = load;
      // a latch that already holds the byte holds it whether it opens again or not: a button that chatters does no harm
      const held = short && !address.unknown && !other ? bytes.findLast((b) => holds(b, address)) : undefined;
      if (held && !perhaps && !load.data.unknown && held.data.value === load.data.value) return { taken: 'same', faults };
      const data = short && !held ? ANYTHING : load.data;
      const certain = !address.unknown && !data.unknown && !other && !perhaps && !short;
      const taken = guard ? guard.take(certain ? address.value : Number.NaN, data.value) : 'byte';
      if (taken === 'refused') faults.push({ fault: 'protected' });
      if (taken === 'byte') {
        const otherPage = page !== undefined && bytes.some((b) => !samePage(b.address, address, page.bytes));
        if (otherPage) faults.push({ fault: 'other-page' });
        const times = wearing.next(address);
        if (times > endurance.value) faults.push({ fault: 'worn', measured: times, limit: endurance.value, source: endurance.source });
        bytes.push({ ...load, data, sure: !address.unknown && !other && !otherPage && !perhaps && !held });
      } else if (taken === 'step') steps.push({ ...load, data, sure: true });
      last = data;
      lastLoad = { ...load, data };
      busy(true);
      if (page) {
        loadEnds = now + page.load;
        bench.alarm(loadEnds, 'load');
      } else startCycle(now);
      return { taken, faults };
    },
    alarm(name, now, writing) {
      // a byte that is being written just now still belongs to the page
      if (name === 'load' && now >= loadEnds && !writing) startCycle(now);
      if (name !== 'cycle' || now < cycleEnds) return false;
      store();
      rest();
      return true;
    },
    abort() {
      if (!last) return;
      for (const { address } of bytes) writeCells(cells, address, { value: 0, unknown: 0xff }, true);
      rest();
    },
  };
}

const holds = (b: Load & { readonly sure: boolean }, { value }: Partly): boolean =>
  b.sure && !b.address.unknown && b.address.value === value && !b.data.unknown;

const samePage = (a: Partly, b: Partly, bytes: number): boolean => (((a.value ^ b.value) | a.unknown | b.unknown) & ~(bytes - 1)) === 0;
