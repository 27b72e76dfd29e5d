/** A lamp that carries more than its largest steady current. */
import { FED } from '../example-benches.ts';
import { toLamp } from '../refs.ts';
import { defineRule } from '../rule.ts';
import { holdingResistor } from '../scene.ts';

export const lampOverCurrent = defineRule({
  code: 'lamp/over-current',
  severity: 'harm',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.lamps.flatMap((site) => {
      const amps = scene.lamp(site)?.amps ?? 0;
      const { value: limit, source } = site.lamp.mostCurrent;
      if (amps <= limit) return [];
      return [{ at: [toLamp(site)], data: { measured: amps, limit, source, cure: holdingResistor(scene.volts, limit, site) } }];
    }),
  bad: { points: 'D1', bench: `${FED}\nD1 led a10 a14\nR1 resistor b10 b5 ohms=68\nW1 lead c5 +j3\nW2 lead b14 -j3` },
  good: { bench: `${FED}\nD1 led a10 a14\nR1 resistor b10 b5 ohms=120\nW1 lead c5 +j3\nW2 lead b14 -j3` },
});
