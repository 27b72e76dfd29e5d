/** A display or a bar graph stands end for end. */
import { defineFault } from '../fault.ts';
import { socketed } from '../fault-bench.ts';
import { endForEnd } from '../moved.ts';

export const displayRotated = defineFault({
  kind: 'display-rotated',
  of: 'wiring',
  weight: 0.5,
  visible: 0.8,
  find: (bench) => socketed(bench, 'led').flatMap((p) => endForEnd(bench, p)),
});
