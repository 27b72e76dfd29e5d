/** An LED with more voltage the wrong way round than it may have. */
import { FED } from '../../example-benches.ts';
import { toLed } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const ledReverseOverVoltage = defineRule({
  code: 'led/reverse-over-voltage',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.leds.flatMap((site) => {
      const back = -(scene.led(site)?.volts ?? 0);
      const { value: limit, source } = site.led.mostReverse;
      return back > limit ? [{ at: [toLed(site)], data: { measured: back, limit, source } }] : [];
    }),
  bad: {
    points: 'D1',
    bench: `${FED.replace('volts=5', 'volts=9')}\nD1 led a14 a10\nR1 resistor b10 b5 ohms=1k\nW1 wire c5 +j3\nW2 wire b14 -j3`,
  },
  good: { bench: `${FED.replace('volts=5', 'volts=4')}\nD1 led a14 a10\nR1 resistor b10 b5 ohms=1k\nW1 wire c5 +j3\nW2 wire b14 -j3` },
});
