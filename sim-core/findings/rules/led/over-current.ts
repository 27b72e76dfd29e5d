/** An LED that carries more than its largest steady current. */
import { FED } from '../../example-benches.ts';
import { toLed } from '../../refs.ts';
import { defineRule } from '../../rule.ts';
import { holdingResistor } from '../../rule-context.ts';

export const ledOverCurrent = defineRule({
  code: 'led/over-current',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.leds.flatMap((site) => {
      const amps = scene.led(site)?.amps ?? 0;
      const { value: limit, source } = site.led.mostCurrent;
      if (amps <= limit) return [];
      return [{ at: [toLed(site)], data: { measured: amps, limit, source, cure: holdingResistor(scene.volts, limit, site) } }];
    }),
  bad: { points: 'D1', bench: `${FED}\nD1 led a10 a14\nR1 resistor b10 b5 ohms=68\nW1 wire c5 +j3\nW2 wire b14 -j3` },
  good: { bench: `${FED}\nD1 led a10 a14\nR1 resistor b10 b5 ohms=120\nW1 wire c5 +j3\nW2 wire b14 -j3` },
});
