/** A chip stands end for end, its notch on the wrong side. */
import { defineFault } from '../fault.ts';
import { socketed } from '../fault-bench.ts';
import { endForEnd } from '../moved.ts';

export const chipRotated = defineFault({
  kind: 'chip-rotated',
  of: 'wiring',
  weight: 1,
  visible: 0.8,
  find: (bench) => socketed(bench, 'memory', 'logic').flatMap((p) => endForEnd(bench, p)),
});
