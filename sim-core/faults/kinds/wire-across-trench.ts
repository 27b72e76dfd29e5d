/** A wire's end stands in the right row on the wrong side of the trench. */

import { LINE_Y, LOWER } from '../../board/boards.ts';
import { holeBeside, holeName, isRailHole, sameStrip } from '../../board/tie-points.ts';
import { defineFault } from '../fault.ts';
import { type FaultBench, laidWires } from '../fault-bench.ts';
import { withEndAt } from '../moved.ts';

type EndHole = NonNullable<ReturnType<typeof laidWires>[number]['ends'][0]['hole']>;

/** A free hole of the same row behind the trench. */
function across({ plan, room }: FaultBench, hole: EndHole): string | undefined {
  if (isRailHole(hole)) return undefined;
  const isLower = (LOWER as readonly string[]).includes(hole.column);
  const other = holeBeside(hole, 0, (isLower ? LINE_Y.f : LINE_Y.e) - LINE_Y[hole.column]);
  const free = other && sameStrip(other).find((h) => room.occupant(holeName(h, plan.boards)) === undefined);
  return free && holeName(free, plan.boards);
}

export const wireAcrossTrench = defineFault({
  kind: 'wire-across-trench',
  of: 'wiring',
  weight: 1,
  visible: 0.9,
  find: (bench) =>
    laidWires(bench).flatMap(({ ends }) => ends.flatMap((end) => withEndAt(bench, end, end.hole && across(bench, end.hole), 'across'))),
});
