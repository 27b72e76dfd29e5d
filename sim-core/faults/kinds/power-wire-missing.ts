/** The wire to a chip's VCC or GND was left out. */
import { defineFault } from '../fault.ts';
import { laidWires, purposeOf } from '../fault-bench.ts';
import { withoutWire } from '../moved.ts';

export const powerWireMissing = defineFault({
  kind: 'power-wire-missing',
  of: 'wiring',
  weight: 3,
  visible: 0.9,
  find: (bench) =>
    laidWires(bench)
      .filter((w) => purposeOf(bench, w) === 'chip')
      .map((w) => withoutWire(bench, w)),
});
