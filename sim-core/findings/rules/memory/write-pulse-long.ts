/** A write pulse whose maximum width is above the longest that a data sheet gives; other sheets give none. */

import { inSeconds, say, times } from '../../../sentence/wording.ts';
import { DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, heldLow, type MeasuredWrite, measuredWrite } from '../../write-log.ts';

export const writePulseLong = defineRule<MeasuredWrite>({
  code: 'memory/write-pulse-long',
  severity: 'marginal',
  reads: 'log',
  // one that only the finger ends has a finding of its own
  look: ({ events }) =>
    casesOf(events, 'pulse-long')
      .filter(({ report }) => !heldLow(events, report.part))
      .map(measuredWrite),
  message: ({ memory, measured, limit }) =>
    say`${memory}: the maximum width of the write pulse is ${inSeconds(measured)} (its data sheet gives at most ${inSeconds(limit)}; other sheets give no maximum). Use a capacitor ${times(measured / limit)} smaller, or a smaller resistor.`,
});

export const writePulseLongExamples = (): RuleExamples => ({
  bad: {
    points: 'U1',
    bench: memoryBench(DATA_5A + writeButton('10n')),
    script: [[{ do: 'press', part: 'S9' }], [{ do: 'release', part: 'S9' }]],
  },
  good: { bench: memoryBench(DATA_5A + writeButton('1n')), script: [[{ do: 'press', part: 'S9' }], [{ do: 'release', part: 'S9' }]] },
});
