/** A write whose address, byte or permission nobody can tell: a pin that decides it floated or stood between the levels. */
import { DATA_5A, memoryBench, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, remarkOf } from '../../write-log.ts';

const REASONS = ['address-unknown', 'data-unknown', 'output-enable-unknown', 'never-sure-low'] as const;

export const writeUndefined = defineRule({
  code: 'memory/write-undefined',
  severity: 'fault',
  reads: 'log',
  look: ({ events }) => REASONS.flatMap((why) => casesOf(events, why).map((c) => remarkOf(c, { why }))),
  bad: { points: 'U1', bench: memoryBench(DATA_5A.replace(/WD3.*\n/, '') + writeButton()), script: [[{ do: 'press', part: 'S9' }]] },
  good: { bench: memoryBench(DATA_5A + writeButton()), script: [[{ do: 'press', part: 'S9' }]] },
});
