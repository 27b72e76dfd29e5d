/** An input at a voltage between its low and its high level: undefined. */

import { thresholdsOf } from '../../../parts/part.ts';
import { inVolts, type Ref, say } from '../../../sentence/wording.ts';
import { drivenInputs } from '../../driven-inputs.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPin } from '../../rule.ts';

interface Data {
  readonly pin: Ref;
  /** its voltage, and the nearer of the two levels [V] */
  readonly measured: number;
  readonly limit: number;
  readonly vil: number;
  readonly vih: number;
}

export const inputBetweenLevels = defineRule<Data>({
  code: 'input/between-levels',
  severity: 'fault',
  reads: 'moment',
  look: (scene) =>
    drivenInputs(scene)
      .filter(({ chip, pin, reading, net }) => {
        const { vil, vih } = thresholdsOf(pin.figures, scene.chip(chip.placed.part.id)?.supply ?? 0);
        const drive = scene.readings.nets[net]?.drive;
        // one that nothing drives has a finding of its own; what an undefined output will make of the net is not known
        if (drive === 'floating' || drive === 'unknown') return false;
        return reading.level === 'X' && reading.volts > vil && reading.volts < vih;
      })
      .map(({ chip, pin, reading }) => {
        const { vil, vih } = thresholdsOf(pin.figures, scene.chip(chip.placed.part.id)?.supply ?? 0);
        const limit = reading.volts - vil < vih - reading.volts ? vil : vih;
        return { pin: toPin(pin.leg), measured: reading.volts, limit, vil, vih };
      }),
  message: ({ pin, measured, vil, vih }) =>
    say`${pin} is at ${inVolts(measured)}, undefined (X): low is up to ${inVolts(vil)}, high from ${inVolts(vih)}. Find what pulls it up and what pulls it down, and weaken one with a larger resistor.`,
});

export const inputBetweenLevelsExamples = (): RuleExamples => ({
  bad: { points: 'U1.5', bench: memoryBench('resistor R3 1k from a16 to -a20\nresistor R4 2k7 from b16 to +j20', 'WA3') },
  good: { bench: memoryBench('resistor R3 1k from a16 to -a20\nresistor R4 10k from b16 to +j20', 'WA3') },
});
