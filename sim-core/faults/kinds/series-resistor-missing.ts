/** The resistor in series with an LED was left out. */
import { defineFault } from '../fault.ts';
import { isPull, resistorsOf } from '../fault-bench.ts';
import { withoutPart } from '../moved.ts';

export const seriesResistorMissing = defineFault({
  kind: 'series-resistor-missing',
  of: 'wiring',
  weight: 1.5,
  visible: 0.9,
  find: (bench) =>
    resistorsOf(bench)
      .filter((p) => !isPull(bench, p))
      .flatMap((p) => withoutPart(bench, p)),
});
