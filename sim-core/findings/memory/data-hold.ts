/** A byte that did not stand still for long enough after the write pulse had ended. */
import { DATA_5A, dataSwitch, memoryBench, writeButton } from '../example-benches.ts';
import { defineRule } from '../rule.ts';
import { casesOf, remarkOf } from '../write-log.ts';

/** The switch opens as the pulse begins; D0 falls below 2 V after 22 kΩ · 12 pF · ln 2.5 = 242 ns, between the end of sure low and sure high. */
const bench = memoryBench(DATA_5A.replace(/WD0.*\n/, '') + writeButton() + dataSwitch('22k'));

export const dataHold = defineRule({
  code: 'memory/data-hold',
  severity: 'broken',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'data-hold').map((c) => remarkOf(c)),
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
