/** A leg of a part on two wires stands one row beside the row that was meant. */
import { defineFault } from '../fault.ts';
import { onTwoLegs } from '../fault-bench.ts';
import { withLegAt } from '../moved.ts';
import { besideRow, holeCalled } from '../near-holes.ts';

export const legRowOff = defineFault({
  kind: 'leg-row-off',
  of: 'wiring',
  weight: 10,
  visible: 0.9,
  find: (bench) =>
    onTwoLegs(bench).flatMap((placed) =>
      (['at', 'to'] as const).flatMap((leg) => {
        const hole = holeCalled(bench, placed.part[leg] ?? '');
        return [-1, 1].flatMap((by) => withLegAt(bench, placed, leg, hole && besideRow(bench, hole, by), by < 0 ? '-1' : '+1'));
      }),
    ),
});
