/** The wire of a chip's VCC or GND stands in the other rail. */
import { defineFault } from '../fault.ts';
import { laidWires, purposeOf } from '../fault-bench.ts';
import { withEndAt } from '../moved.ts';
import { besideRail } from '../near-holes.ts';

export const powerWireWrongRail = defineFault({
  kind: 'power-wire-wrong-rail',
  of: 'wiring',
  weight: 1,
  visible: 0.9,
  find: (bench) =>
    laidWires(bench)
      .filter((w) => purposeOf(bench, w) === 'chip')
      .flatMap(({ ends }) => ends.flatMap((end) => withEndAt(bench, end, end.hole && besideRail(bench, end.hole), 'other rail'))),
});
