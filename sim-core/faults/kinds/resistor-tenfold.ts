/** A resistor of ten or a hundred times the value: its multiplier band was misread. */
import { defineFault } from '../fault.ts';
import { resistorsOf } from '../fault-bench.ts';
import { otherValue } from '../moved.ts';

export const resistorTenfold = defineFault({
  kind: 'resistor-tenfold',
  of: 'wiring',
  weight: 2,
  visible: 0.8,
  find: (bench) => resistorsOf(bench).flatMap((p) => [10, 100].flatMap((times) => otherValue(bench, p, times))),
});
