/** An address that had not stood still for long enough when the write pulse began. */
import { addressSwitch, DATA_5A, memoryBench, writeButton } from '../example-benches.ts';
import { defineRule } from '../rule.ts';
import { casesOf, remarkOf } from '../write-log.ts';

/** The address moves, and with the button 5 to 6 ns later the strobe: 1 kΩ into the pin's 6 pF, from 5 V to 2 V. */
const bench = memoryBench(DATA_5A + writeButton('1n', '1k') + addressSwitch('0', '10k'), 'WA0');

export const addressSetup = defineRule({
  code: 'memory/address-setup',
  severity: 'broken',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'address-setup').map((c) => remarkOf(c)),
  bad: {
    points: 'U1',
    bench,
    script: [
      [
        { do: 'set', part: 'S1', pole: 0, closed: true },
        { do: 'press', part: 'S9' },
      ],
    ],
  },
  good: { bench, script: [[{ do: 'set', part: 'S1', pole: 0, closed: true }], [{ do: 'press', part: 'S9' }]] },
});
