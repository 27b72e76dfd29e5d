/** A write of which the memory took no notice: its outputs were on, it was busy, its supply was too low or too new, or the pulse was too short to be seen. */
import { DATA_5A, memoryBench, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { ignoredOf, remarkOf } from '../../write-log.ts';

const REASONS = ['output-enable-low', 'busy', 'supply-low', 'just-powered', 'protected', 'no-program-voltage', 'glitch'] as const;

export const writeIgnored = defineRule({
  code: 'memory/write-ignored',
  severity: 'fault',
  reads: 'log',
  look: ({ events }) =>
    REASONS.flatMap((why) =>
      ignoredOf(events, why).map((c) =>
        remarkOf(c, why === 'glitch' ? { why, measured: c.report.maybeLow, limit: c.report.limits?.least ?? 0 } : { why }),
      ),
    ),
  bad: { points: 'U1', bench: memoryBench(writeButton().replace('+j11', '-j11')), script: [[{ do: 'press', part: 'S9' }]] },
  good: { bench: memoryBench(DATA_5A + writeButton()), script: [[{ do: 'press', part: 'S9' }]] },
});
