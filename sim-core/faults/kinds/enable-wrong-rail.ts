/** The wire that holds a chip's enable stands in the other rail, so the chip never drives its outputs. */
import { defineFault } from '../fault.ts';
import { isEnable, laidWires } from '../fault-bench.ts';
import { withEndAt } from '../moved.ts';
import { besideRail } from '../near-holes.ts';

export const enableWrongRail = defineFault({
  kind: 'enable-wrong-rail',
  of: 'wiring',
  weight: 3,
  visible: 0.9,
  find: (bench) =>
    laidWires(bench)
      .filter((w) => isEnable(bench, w))
      .flatMap(({ ends }) => ends.flatMap((end) => withEndAt(bench, end, end.hole && besideRail(bench, end.hole), 'other rail'))),
});
