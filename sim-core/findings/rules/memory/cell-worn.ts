/** A cell that has been written more often than its memory is rated for: it still takes the byte, but may not keep it. */

import { grouped } from '../../../../shared/grouped.ts';
import { say } from '../../../sentence/wording.ts';
import { DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, type MeasuredWrite, measuredWrite } from '../../write-log.ts';

export const cellWorn = defineRule<MeasuredWrite>({
  code: 'memory/cell-worn',
  severity: 'marginal',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'worn').map(measuredWrite),
  message: ({ memory, address, byte, measured, limit }) =>
    say`${memory}: the cell at address ${address} has been written ${grouped(measured)} times (rated for ${grouped(limit)}). It holds ${byte} now, but may lose it early. Use another address, or a new memory.`,
});

/** A memory of which every cell has been written so often before it comes to the bench. */
const bench = (written: number) => memoryBench(DATA_5A + writeButton()).replace('U1 at d12', `U1 at d12 with written ${written}`);

export const cellWornExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: bench(10_000), script: [[{ do: 'press', part: 'S9' }]] },
  good: { bench: bench(9_999), script: [[{ do: 'press', part: 'S9' }]] },
});
