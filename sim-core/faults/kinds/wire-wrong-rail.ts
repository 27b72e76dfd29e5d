/** A wire stands in the rail beside the one that was meant. */
import { defineFault } from '../fault.ts';
import { isEnable, laidWires, purposeOf } from '../fault-bench.ts';
import { withEndAt } from '../moved.ts';
import { besideRail } from '../near-holes.ts';

export const wireWrongRail = defineFault({
  kind: 'wire-wrong-rail',
  of: 'wiring',
  weight: 3,
  visible: 0.9,
  find: (bench) =>
    laidWires(bench)
      .filter((w) => purposeOf(bench, w) === 'signal' && !isEnable(bench, w))
      .flatMap(({ ends }) => ends.flatMap((end) => withEndAt(bench, end, end.hole && besideRail(bench, end.hole), 'other rail'))),
});
