/** A byte that came while bytes of another page were being loaded: which page takes it is undefined. */

import { say } from '../../../sentence/wording.ts';
import { DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, type WriteData, writeData } from '../../write-log.ts';

export const otherPage = defineRule<WriteData>({
  code: 'memory/other-page',
  severity: 'fault',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'other-page').map(writeData),
  message: ({ memory, byte, address }) =>
    say`${memory}: byte ${byte} for address ${address} came while another page was being loaded, so its address is undefined (X). Wait for the write cycle to end between two pages, then write it again.`,
});

export const otherPageExamples = (): RuleExamples => ({
  bad: { none: 'No hand is so quick: the next byte must come within 150 µs. tests/unit/findings.test.ts writes it with quicker ones.' },
  good: { bench: memoryBench(DATA_5A + writeButton()), script: [[{ do: 'press', part: 'S9' }]] },
});
