/** A wire from the supply's terminal stands in the other rail. */
import { defineFault } from '../fault.ts';
import { laidWires, purposeOf } from '../fault-bench.ts';
import { withEndAt } from '../moved.ts';
import { besideRail } from '../near-holes.ts';

export const supplyWireWrongRail = defineFault({
  kind: 'supply-wire-wrong-rail',
  of: 'wiring',
  weight: 0.5,
  visible: 0.9,
  find: (bench) =>
    laidWires(bench)
      .filter((w) => ['supply', 'rails'].includes(purposeOf(bench, w)))
      .flatMap(({ ends }) => ends.flatMap((end) => withEndAt(bench, end, end.hole && besideRail(bench, end.hole), 'other rail'))),
});
