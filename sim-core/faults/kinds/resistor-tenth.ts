/** A resistor of a tenth or a hundredth of the value: its multiplier band was misread. */
import { defineFault } from '../fault.ts';
import { resistorsOf } from '../fault-bench.ts';
import { otherValue } from '../moved.ts';

export const resistorTenth = defineFault({
  kind: 'resistor-tenth',
  of: 'wiring',
  weight: 2,
  visible: 0.8,
  find: (bench) => resistorsOf(bench).flatMap((p) => [0.1, 0.01].flatMap((times) => otherValue(bench, p, times))),
});
