/** A write pulse that may have been low for longer than the longest that a data sheet names; other sheets name none. */
import { DATA_5A, memoryBench, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, remarkOf } from '../../write-log.ts';

export const writePulseLong = defineRule({
  code: 'memory/write-pulse-long',
  severity: 'marginal',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'pulse-long').map((c) => remarkOf(c)),
  bad: {
    points: 'U1',
    bench: memoryBench(DATA_5A + writeButton('10n')),
    script: [[{ do: 'press', part: 'S9' }], [{ do: 'release', part: 'S9' }]],
  },
  good: { bench: memoryBench(DATA_5A + writeButton('1n')), script: [[{ do: 'press', part: 'S9' }], [{ do: 'release', part: 'S9' }]] },
});
