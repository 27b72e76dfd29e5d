/** A switch stands one row beside its place, its wires where they were. */
import { defineFault } from '../fault.ts';
import { socketed } from '../fault-bench.ts';
import { oneRowOff } from '../moved.ts';

export const switchRowOff = defineFault({
  kind: 'switch-row-off',
  of: 'wiring',
  weight: 1,
  visible: 0.8,
  find: (bench) => socketed(bench, 'switch').flatMap((p) => oneRowOff(bench, p)),
});
