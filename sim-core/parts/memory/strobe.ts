/**
 * The measuring of one write pulse on the pins' own crossings. /WE and /CE act as one strobe: low when both are low, high when either is high.
 * The strobe leaves high at VIH and is surely low at VIL, so every width has two ends: surely low, and maybe low.
 */
import type { Level, WriteFault } from '../part.ts';
import type { Partly } from './cells.ts';
import type { EepromTiming } from './timing.ts';

export interface Pulse {
  /** left high, was first surely low, was last surely low, was high again [s] */
  readonly leftHigh: number;
  low?: number;
  leftLow?: number;
  /** of the low intervals that it may have had, when this one began and how long the longest of them was [s] */
  lowSince: number;
  longest: number;
  high?: number;
  /** latched when the strobe was first surely low */
  address: Partly;
  addressSetup: number;
  /** another address that may have been meant, if set-up or hold was not kept */
  otherAddress?: Partly;
  /** latched when the strobe left low */
  data: Partly;
  dataSetup: number;
  /** data bits that moved while they had to stand still */
  movedData: number;
  faults: WriteFault[];
  readonly busy: boolean;
  /** levels that /OE had from beginning to end */
  readonly outputEnable: Set<Level>;
}

export const strobeLevel = (a: Level, b: Level): Level => (a === 'H' || b === 'H' ? 'H' : a === 'L' && b === 'L' ? 'L' : 'X');

export function openPulse(now: number, busy: boolean, outputEnable: Level): Pulse {
  return {
    leftHigh: now,
    lowSince: now,
    longest: 0,
    address: { value: 0, unknown: 0 },
    addressSetup: 0,
    data: { value: 0, unknown: 0 },
    dataSetup: 0,
    movedData: 0,
    faults: [],
    busy,
    outputEnable: new Set([outputEnable]),
  };
}

export const sureLow = (p: Pulse): number => p.longest;
export const maybeLow = (p: Pulse): number => (p.high ?? p.leftHigh) - p.leftHigh;

/** Everything about a finished pulse that the data sheet's limits do not allow, measured beside the limit. */
export function judge(p: Pulse, t: EepromTiming): WriteFault[] {
  const limit = (fault: 'pulse-short' | 'pulse-long' | 'data-setup' | 'address-setup', measured: number, value: number): WriteFault => ({
    fault,
    measured,
    limit: value,
    source: t.source,
  });
  const faults: WriteFault[] = [...p.faults];
  if (p.busy) faults.push({ fault: 'busy' });
  // high for a part of the pulse may be enough for a write, and low for a part may be enough against it
  if (p.outputEnable.has('L') && p.outputEnable.size === 1) faults.push({ fault: 'output-enable-low' });
  else if (p.outputEnable.has('L') || p.outputEnable.has('X')) faults.push({ fault: 'output-enable-unknown' });
  if (p.low === undefined) faults.push({ fault: 'never-sure-low' });
  else if (sureLow(p) < t.pulseLeast) faults.push(limit('pulse-short', sureLow(p), t.pulseLeast));
  if (t.pulseMost !== undefined && p.low !== undefined && maybeLow(p) > t.pulseMost)
    faults.push(limit('pulse-long', maybeLow(p), t.pulseMost));
  if (p.low !== undefined && p.addressSetup < t.addressSetup) faults.push(limit('address-setup', p.addressSetup, t.addressSetup));
  if (p.leftLow !== undefined && p.dataSetup < t.dataSetup) faults.push(limit('data-setup', p.dataSetup, t.dataSetup));
  if (p.address.unknown) faults.push({ fault: 'address-unknown' });
  if (p.data.unknown) faults.push({ fault: 'data-unknown' });
  return faults;
}
