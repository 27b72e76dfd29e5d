/** A switch stands end for end: its first pole is where its last was. */
import { defineFault } from '../fault.ts';
import { socketed } from '../fault-bench.ts';
import { endForEnd } from '../moved.ts';

export const switchRotated = defineFault({
  kind: 'switch-rotated',
  of: 'wiring',
  weight: 0.5,
  visible: 0.8,
  find: (bench) => socketed(bench, 'switch').flatMap((p) => endForEnd(bench, p)),
});
