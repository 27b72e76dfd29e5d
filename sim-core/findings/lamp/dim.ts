/** A lamp that carries enough to glow and too little to look lit. */
import { LAMP_STEPS } from '../../run/readings.ts';
import { FED } from '../example-benches.ts';
import { toLamp } from '../refs.ts';
import { defineRule } from '../rule.ts';

export const lampDim = defineRule({
  code: 'lamp/dim',
  severity: 'hint',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.lamps.flatMap((site) => {
      const reading = scene.lamp(site);
      return reading?.glow === 'dim' ? [{ at: [toLamp(site)], data: { measured: reading.amps, limit: LAMP_STEPS.lit } }] : [];
    }),
  bad: { points: 'D1', bench: `${FED}\nD1 led a10 a14\nR1 resistor b10 b5 ohms=10k\nW1 lead c5 +j3\nW2 lead b14 -j3` },
  good: { bench: `${FED}\nD1 led a10 a14\nR1 resistor b10 b5 ohms=1k\nW1 lead c5 +j3\nW2 lead b14 -j3` },
});
