/** A byte that had not stood still for long enough when the write pulse ended. */
import { DATA_5A, dataSwitch, memoryBench, writeButton } from '../example-benches.ts';
import { defineRule } from '../rule.ts';
import { casesOf, remarkOf } from '../write-log.ts';

/** The switch opens as the pulse begins; D0 falls below 2 V after 8.2 kΩ · 12 pF · ln 2.5 = 90 ns, and the pulse ends after 119 ns. */
const bench = memoryBench(DATA_5A.replace(/WD0.*\n/, '') + writeButton() + dataSwitch('8k2'));

export const dataSetup = defineRule({
  code: 'memory/data-setup',
  severity: 'broken',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'data-setup').map((c) => remarkOf(c)),
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
  good: { bench, script: [[{ do: 'set', part: 'S1', pole: 0, closed: false }], [{ do: 'press', part: 'S9' }]] },
});
