/** A wire from the supply's terminal was left out. */
import { defineFault } from '../fault.ts';
import { laidWires, purposeOf } from '../fault-bench.ts';
import { withoutWire } from '../moved.ts';

export const supplyWireMissing = defineFault({
  kind: 'supply-wire-missing',
  of: 'wiring',
  weight: 1,
  visible: 0.9,
  find: (bench) =>
    laidWires(bench)
      .filter((w) => purposeOf(bench, w) === 'supply')
      .map((w) => withoutWire(bench, w)),
});
