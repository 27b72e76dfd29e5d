/** A capacitor with more voltage across it than it is made for. */
import { FED } from '../../example-benches.ts';
import { polarised } from '../../polarised.ts';
import { toPart } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const capacitorOverVoltage = defineRule({
  code: 'capacitor/over-voltage',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    polarised(scene).flatMap(({ placed, volts, polar }) => {
      const { value: limit, source } = polar.most(placed.params);
      return volts > limit ? [{ at: [toPart(placed)], data: { measured: volts, limit, source } }] : [];
    }),
  bad: { points: 'C1', bench: `${FED.replace('volts=5', 'volts=12')}\nC1 electrolytic a10 a14 volts=10\nW1 wire c10 +j3\nW2 wire b14 -j3` },
  good: { bench: `${FED.replace('volts=5', 'volts=12')}\nC1 electrolytic a10 a14 volts=16\nW1 wire c10 +j3\nW2 wire b14 -j3` },
});
