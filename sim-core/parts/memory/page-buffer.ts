/** What an EEPROM does with a byte that has come in: page, protection sequence, internal cycle, and what can be read meanwhile. */

import type { PlanCells } from '../../../shared/plan.ts';
import { OFF, PULL_LOW } from '../../devices/network.ts';
import type { Partly } from '../../units/hex.ts';
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
  /** true: it is unknown whether it was written at all */
  readonly perhaps: boolean;
  /** true: the pulse was too short to take the byte for sure; each bit may be what the latch held before, or anything where nothing had come into it */
  readonly short: boolean;
}

/** Protection is kept past the last cell, at `flag`. */
const PROTECTED = 0x01;
const ANYTHING: Partly = { value: 0, unknown: 0xff };
const OPEN = 0xff;

/** written: how often every cell had been written before. */
export class PageBuffer {
  private readonly bench: ChipBench;
  private readonly cells: Cells;
  private readonly flag: number;
  private readonly traits: LoadingTraits;
  private readonly page: { readonly bytes: number; readonly load: number } | undefined;
  private readonly endurance: Figure;
  private readonly guard: import('./software-protection.ts').SoftwareProtection | undefined;
  private readonly wearing: import('./write-counts.ts').WriteCounts;
  private bytes: (Load & { readonly sure: boolean })[] = [];
  /** steps of a sequence, which may turn out to be bytes */
  private steps: (Load & { readonly sure: boolean })[] = [];
  /** the last byte; undefined: nothing is under way */
  private last: Partly | undefined;
  private lastLoad: Load | undefined;
  private toggle = false;
  private endsAt = Number.POSITIVE_INFINITY;
  private loadEnds = Number.POSITIVE_INFINITY;
  readonly writes: () => PlanCells['writes'];

  constructor(bench: ChipBench, cells: Cells, flag: number, traits: LoadingTraits, written: number) {
    this.bench = bench;
    this.cells = cells;
    this.flag = flag;
    this.traits = traits;
    const { page, endurance } = this.traits;
    this.page = page;
    this.endurance = endurance;
    this.guard = this.traits.protection && makeSoftwareProtection(this.traits.protection, this.cells.value[this.flag] === PROTECTED);
    this.wearing = makeWriteCounts(this.cells.value.length, written, this.bench.cells?.writes);
    this.writes = this.wearing.writes;
  }

  /** does the internal cycle run, and until when [s]? */
  cycling(): boolean {
    return this.endsAt < Number.POSITIVE_INFINITY;
  }

  cycleEnds(): number {
    return this.endsAt;
  }

  /** the byte that came in last and is not stored yet */
  latched(): Pick<Load, 'address' | 'data'> | undefined {
    return this.lastLoad;
  }

  /** what is read instead of the cells, from the first byte to the end of the cycle */
  polled(): Partly | undefined {
    if (!this.last) return undefined;
    // only the last bit, inverted, is known, and the one that toggles
    const value = (~this.last.value & 0x80) | (this.toggle ? 0x40 : 0);
    const unknown = (this.last.unknown & 0x80) | (this.traits.toggles ? 0x3f : 0x7f);
    return { value: value & ~unknown, unknown };
  }

  mostWritten(): { readonly address: number; readonly cycles: number } {
    return this.wearing.most;
  }

  /** the outputs have come on the bus once more */
  readAgain(): void {
    this.toggle = !this.toggle;
  }

  offer(load: Load, now: number): { readonly taken: 'step' | 'byte' | 'refused' | 'same'; readonly faults: readonly WriteFault[] } {
    const faults: WriteFault[] = [];
    const { address, other, perhaps, short } = load;
    // a latch that already holds the byte holds it whether it opens again or not: a button that bounces does no harm
    const held = short && !address.unknown && !other ? this.bytes.findLast((b) => holds(b, address)) : undefined;
    if (held && !perhaps && !load.data.unknown && held.data.value === load.data.value) return { taken: 'same', faults };
    const data = short && !held ? ANYTHING : load.data;
    const certain = !address.unknown && !data.unknown && !other && !perhaps && !short;
    const taken = this.guard ? this.guard.take(certain ? address.value : Number.NaN, data.value) : 'byte';
    if (taken === 'refused') faults.push({ fault: 'protected' });
    if (taken === 'byte') {
      const { page } = this;
      const otherPage = page !== undefined && this.bytes.some((b) => !samePage(b.address, address, page.bytes));
      if (otherPage) faults.push({ fault: 'other-page' });
      const times = this.wearing.next(address);
      if (times > this.endurance.value)
        faults.push({ fault: 'worn', measured: times, limit: this.endurance.value, source: this.endurance.source });
      this.bytes.push({ ...load, data, sure: !address.unknown && !other && !otherPage && !perhaps && !held });
    } else if (taken === 'step') this.steps.push({ ...load, data, sure: true });
    this.last = data;
    this.lastLoad = { ...load, data };
    this.busy(true);
    if (this.page) {
      this.loadEnds = now + this.page.load;
      this.bench.alarm(this.loadEnds, 'load');
    } else this.startCycle(now);
    return { taken, faults };
  }

  /** after the alarms 'load' and 'cycle'; writing: a pulse is under way. True if the cells can be read again. */
  alarm(name: string, now: number, writing: boolean): boolean {
    // a byte that is being written just now still belongs to the page
    if (name === 'load' && now >= this.loadEnds && !writing) this.startCycle(now);
    if (name !== 'cycle' || now < this.endsAt) return false;
    this.store();
    this.rest();
    return true;
  }

  /** the supply has failed: the bytes under way are uncertain */
  abort(): void {
    if (!this.last) return;
    for (const { address } of this.bytes) writeCells(this.cells, address, { value: 0, unknown: 0xff }, true);
    this.rest();
  }

  private busy(is: boolean): void {
    if (this.traits.busyOutput !== undefined) this.bench.drive(this.traits.busyOutput, is ? PULL_LOW : OFF);
  }

  private rest(): void {
    this.guard?.close();
    if (this.guard) this.cells.value[this.flag] = this.guard.on ? PROTECTED : OPEN;
    this.endsAt = Number.POSITIVE_INFINITY;
    this.loadEnds = Number.POSITIVE_INFINITY;
    this.bytes = [];
    this.steps = [];
    this.last = undefined;
    this.lastLoad = undefined;
    this.busy(false);
  }

  private startCycle(now: number): void {
    this.loadEnds = Number.POSITIVE_INFINITY;
    this.endsAt = now + this.traits.cycle;
    this.bench.alarm(this.endsAt, 'cycle');
  }

  private store(): void {
    if (this.guard?.stepsWereBytes) this.bytes.unshift(...this.steps);
    for (const { address, other, data, sure } of this.bytes) {
      writeCells(this.cells, address, data, sure);
      if (other) writeCells(this.cells, other, data, false);
      this.wearing.count(address);
    }
  }
}

const holds = (b: Load & { readonly sure: boolean }, { value }: Partly): boolean =>
  b.sure && !b.address.unknown && b.address.value === value && !b.data.unknown;

const samePage = (a: Partly, b: Partly, bytes: number): boolean => (((a.value ^ b.value) | a.unknown | b.unknown) & ~(bytes - 1)) === 0;
