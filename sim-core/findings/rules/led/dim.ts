/** An LED that carries enough to glow and too little to look lit. */
import { LED_STEPS } from '../../../run/readout/readings.ts';
import { FED } from '../../example-benches.ts';
import { toLed } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const ledDim = defineRule({
  code: 'led/dim',
  severity: 'suggestion',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.leds.flatMap((site) => {
      const reading = scene.led(site);
      return reading?.glow === 'dim' ? [{ at: [toLed(site)], data: { measured: reading.amps, limit: LED_STEPS.lit } }] : [];
    }),
  bad: { points: 'D1', bench: `${FED}\nD1 led a10 a14\nR1 resistor b10 b5 ohms=10k\nW1 wire c5 +j3\nW2 wire b14 -j3` },
  good: { bench: `${FED}\nD1 led a10 a14\nR1 resistor b10 b5 ohms=1k\nW1 wire c5 +j3\nW2 wire b14 -j3` },
});
