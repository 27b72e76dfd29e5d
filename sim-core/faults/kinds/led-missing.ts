/** An LED was left out. */
import { defineFault } from '../fault.ts';
import { onTwoLegs } from '../fault-bench.ts';
import { withoutPart } from '../moved.ts';

export const ledMissing = defineFault({
  kind: 'led-missing',
  of: 'wiring',
  weight: 1,
  visible: 0.9,
  find: (bench) =>
    onTwoLegs(bench)
      .filter((p) => p.kind.group === 'led')
      .flatMap((p) => withoutPart(bench, p)),
});
