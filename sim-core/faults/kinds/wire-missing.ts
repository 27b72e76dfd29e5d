/** A wire that was left out, or whose end is not pushed in. */
import { defineFault } from '../fault.ts';
import { laidWires, purposeOf } from '../fault-bench.ts';
import { withoutWire } from '../moved.ts';

export const wireMissing = defineFault({
  kind: 'wire-missing',
  of: 'wiring',
  weight: 14,
  visible: 0.9,
  find: (bench) =>
    laidWires(bench)
      .filter((w) => purposeOf(bench, w) === 'signal')
      .map((w) => withoutWire(bench, w)),
});
