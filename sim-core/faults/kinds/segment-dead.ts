/** One LED of a display or a bar graph is dead. */
import { ownPin } from '../../run/circuit/site-builder.ts';
import { defineFault } from '../fault.ts';
import { burnt, withPartAs } from '../moved.ts';

export const segmentDead = defineFault({
  kind: 'segment-dead',
  of: 'wiring',
  weight: 0.5,
  visible: 0.05,
  find: (bench) =>
    bench.circuit.leds
      .filter(({ led }) => led.name !== '')
      .map(({ placed, led, anode }) =>
        withPartAs(bench, placed, { damaged: burnt('current', [ownPin(placed, led, anode.pin)]) }, led.name),
      ),
});
