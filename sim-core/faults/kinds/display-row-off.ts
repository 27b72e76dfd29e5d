/** A display or a bar graph stands one row beside its place. */
import { defineFault } from '../fault.ts';
import { socketed } from '../fault-bench.ts';
import { oneRowOff } from '../moved.ts';

export const displayRowOff = defineFault({
  kind: 'display-row-off',
  of: 'wiring',
  weight: 1,
  visible: 0.8,
  find: (bench) => socketed(bench, 'led').flatMap((p) => oneRowOff(bench, p)),
});
