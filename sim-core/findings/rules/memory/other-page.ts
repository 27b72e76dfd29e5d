/** A byte that came while bytes of another page were being loaded: nobody can tell which page takes it. */
import { DATA_5A, memoryBench, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, remarkOf } from '../../write-log.ts';

export const otherPage = defineRule({
  code: 'memory/other-page',
  severity: 'fault',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'other-page').map((c) => remarkOf(c)),
  bad: { none: 'No hand is so quick: the next byte must come within 150 µs. tests/unit/findings.test.ts writes it with quicker ones.' },
  good: { bench: memoryBench(DATA_5A + writeButton()), script: [[{ do: 'press', part: 'S9' }]] },
});
