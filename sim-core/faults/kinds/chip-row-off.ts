/** A chip stands one row beside its place, its wires where they were. */
import { defineFault } from '../fault.ts';
import { socketed } from '../fault-bench.ts';
import { oneRowOff } from '../moved.ts';

export const chipRowOff = defineFault({
  kind: 'chip-row-off',
  of: 'wiring',
  weight: 3,
  visible: 0.8,
  find: (bench) => socketed(bench, 'memory', 'logic').flatMap((p) => oneRowOff(bench, p)),
});
