/** An input that is held at a voltage which is neither surely low nor surely high. */
import { thresholdsOf } from '../../../parts/part.ts';
import { drivenInputs } from '../../driven-inputs.ts';
import { memoryBench } from '../../example-benches.ts';
import { toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const inputBetweenLevels = defineRule({
  code: 'input/between-levels',
  severity: 'fault',
  reads: 'moment',
  look: (scene) =>
    drivenInputs(scene)
      .filter(({ chip, pin, reading, net }) => {
        const { vil, vih } = thresholdsOf(pin.figures, scene.chip(chip.placed.part.id)?.supply ?? 0);
        return reading.level === 'X' && scene.readings.nets[net]?.held !== 'air' && reading.volts > vil && reading.volts < vih;
      })
      .map(({ chip, pin, reading }) => {
        const { vil, vih } = thresholdsOf(pin.figures, scene.chip(chip.placed.part.id)?.supply ?? 0);
        const limit = reading.volts - vil < vih - reading.volts ? vil : vih;
        return { at: [toPin(pin.leg)], data: { measured: reading.volts, limit, vil, vih } };
      }),
  bad: { points: 'U1.5', bench: memoryBench('R3 resistor a16 -a20 ohms=1k\nR4 resistor b16 +j20 ohms=2k7', 'WA3') },
  good: { bench: memoryBench('R3 resistor a16 -a20 ohms=1k\nR4 resistor b16 +j20 ohms=10k', 'WA3') },
});
