/** Both legs of a part on two wires stand in one row, so nothing flows through it. */
import { holeName, sameStrip } from '../../board/tie-points.ts';
import { defineFault } from '../fault.ts';
import { onTwoLegs } from '../fault-bench.ts';
import { withLegAt } from '../moved.ts';
import { holeCalled } from '../near-holes.ts';

export const legsInOneRow = defineFault({
  kind: 'legs-in-one-row',
  of: 'wiring',
  weight: 1,
  visible: 0.9,
  find: (bench) =>
    onTwoLegs(bench).flatMap((placed) =>
      (['at', 'to'] as const).flatMap((leg) => {
        const other = holeCalled(bench, placed.part[leg === 'at' ? 'to' : 'at'] ?? '');
        const names = (other ? sameStrip(other) : []).map((h) => holeName(h, bench.plan.boards));
        return withLegAt(
          bench,
          placed,
          leg,
          names.find((n) => bench.room.occupant(n) === undefined),
          'one row',
        );
      }),
    ),
});
