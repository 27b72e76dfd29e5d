/** A chip is dead as a whole. */
import { defineFault } from '../fault.ts';
import { burnt, withPartAs } from '../moved.ts';

export const chipDead = defineFault({
  kind: 'chip-dead',
  of: 'wiring',
  weight: 0.3,
  visible: 0.05,
  find: (bench) => bench.circuit.chips.map(({ placed }) => withPartAs(bench, placed, { damaged: burnt('supply') }, '')),
});
