/**
 * The measuring of one write pulse on the pins' own crossings. /WE and /CE act as one strobe: low when both are low, high when either is high.
 * The strobe leaves high at VIH and is guaranteed low at VIL, so every width has two bounds: guaranteed, and maximum.
 */

import type { Partly } from '../../units/hex.ts';
import type { Level, WriteFault, WriteReport, WriteTime } from '../part.ts';
import type { EepromTiming } from './timing.ts';

export interface Pulse {
  /** left high, was first guaranteed low, was last guaranteed low, was high again [s] */
  readonly leftHigh: number;
  low?: number;
  leftLow?: number;
  /** of the low intervals that it may have had, when this one began and how long the longest of them was [s] */
  lowSince: number;
  longest: number;
  high?: number;
  /** latched when the strobe was first guaranteed low */
  address: Partly;
  /** address bits that moved while they had to stand still: each may have been latched either way */
  movedAddress: number;
  /** latched when the strobe left low */
  data: Partly;
  /** data bits that moved while they had to stand still */
  movedData: number;
  /** when data first moved after the strobe had left low [s] */
  dataLeft?: number;
  readonly times: Map<WriteTime, number>;
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
    movedAddress: 0,
    data: { value: 0, unknown: 0 },
    movedData: 0,
    times: new Map(),
    busy,
    outputEnable: new Set([outputEnable]),
  };
}

export const guaranteedLow = (p: Pulse): number => p.longest;
export const maximumLow = (p: Pulse): number => (p.high ?? p.leftHigh) - p.leftHigh;

/** Every address that the pulse may have latched: lines that skew against each other can show any mixture of before and after. */
export const reachable = ({ address, movedAddress }: Pulse): Partly => ({
  value: address.value & ~movedAddress,
  unknown: address.unknown | movedAddress,
});

/** What was measured around the pulse, in the order in which sheets list it. */
export const timesOf = (p: Pulse, { least }: EepromTiming): WriteReport['times'] =>
  (Object.keys(least) as WriteTime[]).flatMap((time) => {
    const measured = p.times.get(time);
    return measured === undefined ? [] : [{ time, measured, limit: least[time] }];
  });

/** Everything about a finished pulse that the data sheet's limits do not allow, measured beside the limit. */
export function checkStrobe(p: Pulse, t: EepromTiming): WriteFault[] {
  const limit = (fault: 'pulse-short' | 'pulse-long' | WriteTime, measured: number, value: number): WriteFault => ({
    fault,
    measured,
    limit: value,
    source: t.source,
  });
  const faults: WriteFault[] = [];
  if (p.busy) faults.push({ fault: 'busy' });
  // high for a part of the pulse may be enough for a write, and low for a part may be enough against it
  if (p.outputEnable.has('L') && p.outputEnable.size === 1) faults.push({ fault: 'output-enable-low' });
  else if (p.outputEnable.has('L') || p.outputEnable.has('X')) faults.push({ fault: 'output-enable-unknown' });
  if (p.low === undefined) faults.push({ fault: 'never-guaranteed-low' });
  else if (guaranteedLow(p) < t.pulseLeast) faults.push(limit('pulse-short', guaranteedLow(p), t.pulseLeast));
  if (t.pulseMost !== undefined && p.low !== undefined && maximumLow(p) > t.pulseMost)
    faults.push(limit('pulse-long', maximumLow(p), t.pulseMost));
  for (const { time, measured, limit: least } of timesOf(p, t)) if (measured < least) faults.push(limit(time, measured, least));
  if (p.address.unknown) faults.push({ fault: 'address-unknown' });
  if (p.data.unknown) faults.push({ fault: 'data-unknown' });
  return faults;
}
