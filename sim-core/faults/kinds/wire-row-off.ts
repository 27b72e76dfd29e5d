/** A wire's end stands one row beside the row that was meant. */
import { defineFault } from '../fault.ts';
import { laidWires } from '../fault-bench.ts';
import { withEndAt } from '../moved.ts';
import { besideRow } from '../near-holes.ts';

export const wireRowOff = defineFault({
  kind: 'wire-row-off',
  of: 'wiring',
  weight: 14,
  visible: 0.9,
  find: (bench) =>
    laidWires(bench).flatMap(({ ends }) =>
      ends.flatMap((end) =>
        [-1, 1].flatMap((by) => withEndAt(bench, end, end.hole && besideRow(bench, end.hole, by), by < 0 ? '-1' : '+1')),
      ),
    ),
});
