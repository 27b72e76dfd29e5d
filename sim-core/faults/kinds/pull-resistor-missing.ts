/** The resistor that holds an input while its switch is open was left out. */
import { defineFault } from '../fault.ts';
import { isPull, resistorsOf } from '../fault-bench.ts';
import { withoutPart } from '../moved.ts';

export const pullResistorMissing = defineFault({
  kind: 'pull-resistor-missing',
  of: 'wiring',
  weight: 2,
  visible: 0.9,
  find: (bench) =>
    resistorsOf(bench)
      .filter((p) => isPull(bench, p))
      .flatMap((p) => withoutPart(bench, p)),
});
