/** An input that nothing holds: its worst-case leakage, through the resistance that the rest of the bench shows it, can carry it out of its level. */
import { thresholdsOf } from '../../../parts/part.ts';
import { drivenInputs, leakageOn } from '../../driven-inputs.ts';
import { memoryBench } from '../../example-benches.ts';
import { toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

/** The usual resistor that holds an input [Ω]: common practice, no source. */
const USUAL = 10e3;

export const inputFloating = defineRule({
  code: 'input/floating',
  severity: 'fault',
  reads: 'moment',
  look: (scene) =>
    drivenInputs(scene)
      .filter(({ reading, net }) => reading.level === 'X' && scene.readings.nets[net]?.held === 'air')
      .map(({ chip, pin, reading, net }) => {
        const ohms = scene.readings.nets[net]?.ohms ?? 0;
        const leakage = leakageOn(scene.circuit, net);
        const { vil, vih } = thresholdsOf(pin.figures, scene.chip(chip.placed.part.id)?.supply ?? 0);
        const most = vil / leakage;
        return {
          at: [toPin(pin.leg)],
          data: {
            measured: ohms,
            limit: most,
            leakage,
            volts: reading.volts,
            vil,
            vih,
            cure: Math.min(USUAL, most),
            drift: Math.min(USUAL, most) * leakage,
          },
        };
      }),
  bad: { points: 'U1.5', bench: memoryBench('WWE wire j15 +j9\nWOE wire j16 -j9', 'WA3') },
  good: { bench: memoryBench('WWE wire j15 +j9\nWOE wire j16 -j9\nR3 resistor a16 -a20 ohms=10k', 'WA3') },
});
