/** A write pulse whose guaranteed width is below what the memory needs. */

import { inSeconds, say, times } from '../../../sentence/wording.ts';
import { DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, type MeasuredWrite, measuredWrite, writtenByte } from '../../write-log.ts';

export const writePulseShort = defineRule<MeasuredWrite>({
  code: 'memory/write-pulse-short',
  severity: 'fault',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'pulse-short').map(measuredWrite),
  message: (data) => {
    const { memory, measured, limit } = data;
    const larger = measured > 0 ? `${times(limit / measured)} ` : '';
    return say`${memory}: the guaranteed width of the write pulse is ${inSeconds(measured)} (at least ${inSeconds(limit)}), so ${writtenByte(data)} is undefined (X). Use a capacitor ${larger}larger, or a larger resistor, and write again.`;
  },
});

export const writePulseShortExamples = (): RuleExamples => ({
  bad: {
    points: 'U1',
    bench: memoryBench(DATA_5A + writeButton('330p')),
    script: [[{ do: 'press', part: 'S9' }], [{ do: 'release', part: 'S9' }]],
  },
  good: { bench: memoryBench(DATA_5A + writeButton('1n')), script: [[{ do: 'press', part: 'S9' }], [{ do: 'release', part: 'S9' }]] },
});
