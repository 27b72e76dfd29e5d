/** A write that the memory ignored: its outputs were on, it was busy, its supply was too low or too new, or the pulse was too short to be seen. */

import { inSeconds, inVolts, say } from '../../../sentence/wording.ts';
import { DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { ignoredOf, type WriteCase, type WriteData, writeData } from '../../write-log.ts';

const REASONS = ['output-enable-low', 'busy', 'supply-low', 'just-powered', 'protected', 'no-program-voltage', 'glitch'] as const;
type Reason = (typeof REASONS)[number];

interface Data extends WriteData {
  readonly why: Reason;
  /** of the supply [V], or of a time [s] */
  readonly measured: number;
  readonly limit: number;
  readonly source?: string;
}

export const writeIgnored = defineRule<Data>({
  code: 'memory/write-ignored',
  severity: 'fault',
  reads: 'log',
  apart: ({ why }) => why,
  look: ({ events }) => REASONS.flatMap((why) => ignoredOf(events, why).map((c) => ({ ...writeData(c), why, ...figuresOf(why, c) }))),
  message: (data) =>
    say`${data.memory} ignored ${data.count > 1 ? `${data.count} writes, one` : 'a write'} at address ${data.address}: ${BECAUSE[data.why](data)}`,
});

const figuresOf = (why: Reason, { report, fault }: WriteCase): Pick<Data, 'measured' | 'limit' | 'source'> =>
  why === 'glitch'
    ? { measured: report.maximumLow, limit: report.limits?.least ?? 0 }
    : fault && 'measured' in fault
      ? { measured: fault.measured, limit: fault.limit, source: fault.source }
      : { measured: 0, limit: 0 };

const BECAUSE: Readonly<Record<Reason, (data: Data) => string>> = {
  'output-enable-low': () => '/OE was low, and must be high throughout the pulse. Set /OE high and press again.',
  busy: () => 'it was busy storing the byte before. Wait for the write cycle to end, then press again.',
  'supply-low': ({ measured, limit }) =>
    `its supply was ${inVolts(measured)} (at least ${inVolts(limit)}). Raise the supply and press again.`,
  'just-powered': ({ measured, limit }) =>
    `it had its supply for only ${inSeconds(measured)} (writes are locked out for ${inSeconds(limit)}). Wait, then press again.`,
  protected: () =>
    'its software protection is on. Write the three unlock bytes before the byte, or turn the protection off with the six bytes of its data sheet.',
  'no-program-voltage': ({ limit }) =>
    `VPP was below ${inVolts(limit)}, so nothing was programmed. Set VPP to its programming voltage, then pulse again.`,
  glitch: ({ measured, limit }) =>
    `the pulse was ${inSeconds(measured)} wide at most, too short to be seen (at least ${inSeconds(limit)}). Use a larger capacitor or resistor for the pulse.`,
};

export const writeIgnoredExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: memoryBench(writeButton().replace('+j11', '-j11')), script: [[{ do: 'press', part: 'S9' }]] },
  good: { bench: memoryBench(DATA_5A + writeButton()), script: [[{ do: 'press', part: 'S9' }]] },
});
