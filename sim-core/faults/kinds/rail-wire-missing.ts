/** A wire between two rails was left out, so one of them is not fed. */
import { defineFault } from '../fault.ts';
import { laidWires, purposeOf } from '../fault-bench.ts';
import { withoutWire } from '../moved.ts';

export const railWireMissing = defineFault({
  kind: 'rail-wire-missing',
  of: 'wiring',
  weight: 3,
  visible: 0.9,
  find: (bench) =>
    laidWires(bench)
      .filter((w) => purposeOf(bench, w) === 'rails')
      .map((w) => withoutWire(bench, w)),
});
