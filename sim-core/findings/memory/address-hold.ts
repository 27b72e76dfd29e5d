/** An address that did not stand still for long enough after the write pulse had begun. */
import { addressSwitch, DATA_5A, memoryBench, writeButton } from '../example-benches.ts';
import { defineRule } from '../rule.ts';
import { casesOf, remarkOf } from '../write-log.ts';

/** The switch opens as the pulse begins, and the address falls below 2 V after 4.7 kΩ · 6 pF · ln 2.5 = 26 ns. */
const bench = memoryBench(DATA_5A + writeButton() + addressSwitch('1', '4k7'), 'WA0');

export const addressHold = defineRule({
  code: 'memory/address-hold',
  severity: 'broken',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'address-hold').map((c) => remarkOf(c)),
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
