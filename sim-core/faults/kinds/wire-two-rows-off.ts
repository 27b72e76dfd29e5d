/** A wire's end stands two rows beside the row that was meant. */
import { defineFault } from '../fault.ts';
import { laidWires } from '../fault-bench.ts';
import { withEndAt } from '../moved.ts';
import { besideRow } from '../near-holes.ts';

export const wireTwoRowsOff = defineFault({
  kind: 'wire-two-rows-off',
  of: 'wiring',
  weight: 2,
  visible: 0.9,
  find: (bench) =>
    laidWires(bench).flatMap(({ ends }) =>
      ends.flatMap((end) =>
        [-2, 2].flatMap((by) => withEndAt(bench, end, end.hole && besideRow(bench, end.hole, by), by < 0 ? '-2' : '+2')),
      ),
    ),
});
