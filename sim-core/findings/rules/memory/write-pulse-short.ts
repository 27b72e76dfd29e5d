/** A write pulse that was not surely low for as long as the memory asks. */
import { DATA_5A, memoryBench, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, remarkOf } from '../../write-log.ts';

export const writePulseShort = defineRule({
  code: 'memory/write-pulse-short',
  severity: 'fault',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'pulse-short').map((c) => remarkOf(c)),
  bad: {
    points: 'U1',
    bench: memoryBench(DATA_5A + writeButton('330p')),
    script: [[{ do: 'press', part: 'S9' }], [{ do: 'release', part: 'S9' }]],
  },
  good: { bench: memoryBench(DATA_5A + writeButton('1n')), script: [[{ do: 'press', part: 'S9' }], [{ do: 'release', part: 'S9' }]] },
});
