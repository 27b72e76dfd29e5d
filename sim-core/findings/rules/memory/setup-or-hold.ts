/** A pin that had to stand still around a write pulse and did not, for as long as the memory asks. */
import type { WriteTime } from '../../../parts/part.ts';
import { addressSwitch, DATA_5A, memoryBench, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, remarkOf } from '../../write-log.ts';

const TIMES: readonly WriteTime[] = [
  'address-setup',
  'address-hold',
  'data-setup',
  'data-hold',
  'output-enable-setup',
  'output-enable-hold',
];

/** The switch opens as the pulse begins, and the address falls below 2 V after 4.7 kΩ · 6 pF · ln 2.5 = 26 ns. */
const bench = memoryBench(DATA_5A + writeButton() + addressSwitch('1', '4k7'), 'WA0');

export const setupOrHold = defineRule({
  code: 'memory/setup-or-hold',
  severity: 'fault',
  reads: 'log',
  look: ({ events }) => TIMES.flatMap((why) => casesOf(events, why).map((c) => remarkOf(c, { why }))),
  bad: {
    points: 'U1',
    bench,
    script: [
      [
        { do: 'press', part: 'S9' },
        { do: 'set', part: 'S1', pole: 0, closed: false },
      ],
    ],
  },
  good: { bench, script: [[{ do: 'press', part: 'S9' }], [{ do: 'set', part: 'S1', pole: 0, closed: false }]] },
});
