/** A display of the other polarity: the same pins, its LEDs the other way round. */
import { defineFault } from '../fault.ts';
import { socketed } from '../fault-bench.ts';
import { ofOtherKind } from '../moved.ts';

export const displayPolarity = defineFault({
  kind: 'display-polarity',
  of: 'wiring',
  weight: 2,
  visible: 0.3,
  find: (bench) => socketed(bench, 'led').flatMap((p) => ofOtherKind(bench, p)),
});
