/** A logic chip with the same pins and another function. */
import { defineFault } from '../fault.ts';
import { socketed } from '../fault-bench.ts';
import { ofOtherKind } from '../moved.ts';

export const chipOfOtherKind = defineFault({
  kind: 'chip-of-other-kind',
  of: 'wiring',
  weight: 1,
  visible: 0.5,
  find: (bench) => socketed(bench, 'logic').flatMap((p) => ofOtherKind(bench, p)),
});
