/** An LED is dead: burnt open by too much current before. */
import { defineFault } from '../fault.ts';
import { onTwoLegs } from '../fault-bench.ts';
import { burnt, withPartAs } from '../moved.ts';

export const ledDead = defineFault({
  kind: 'led-dead',
  of: 'wiring',
  weight: 1,
  visible: 0.05,
  find: (bench) =>
    onTwoLegs(bench)
      .filter((p) => p.kind.group === 'led')
      .map((p) => withPartAs(bench, p, { damaged: burnt('current') }, '')),
});
