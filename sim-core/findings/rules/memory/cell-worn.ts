/** A cell that has been written more often than its memory promises: it takes the byte still, but may not keep it. */
import { DATA_5A, memoryBench, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, remarkOf } from '../../write-log.ts';

/** A memory of which every cell has been written so often before it comes to the bench. */
const bench = (written: number) => memoryBench(DATA_5A + writeButton()).replace('eeprom-2kx8 d12', `eeprom-2kx8 d12 written=${written}`);

export const cellWorn = defineRule({
  code: 'memory/cell-worn',
  severity: 'marginal',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'worn').map((c) => remarkOf(c)),
  bad: { points: 'U1', bench: bench(10_000), script: [[{ do: 'press', part: 'S9' }]] },
  good: { bench: bench(9_999), script: [[{ do: 'press', part: 'S9' }]] },
});
