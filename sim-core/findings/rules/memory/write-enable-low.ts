/** A memory whose write enable is tied low: it is always being written, so its outputs never drive. */

import { thresholdsOf } from '../../../parts/part.ts';
import { inVolts, type Ref, say } from '../../../sentence/wording.ts';
import { drivenInputs } from '../../driven-inputs.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';
import { tiedLevel } from '../../tied-inputs.ts';
import { STROBE } from '../../write-button.ts';

interface Data {
  readonly pin: Ref;
  readonly memory: Ref;
  /** its voltage, and from where it is high [V] */
  readonly measured: number;
  readonly limit: number;
}

export const writeEnableLow = defineRule<Data>({
  code: 'memory/write-enable-low',
  severity: 'fault',
  reads: 'moment',
  look: (scene) =>
    drivenInputs(scene).flatMap(({ chip, pin, reading }) => {
      const isStrobe = chip.spec.word !== undefined && pin.name === STROBE && chip.spec.toRead?.[STROBE] === 'H';
      if (!isStrobe || reading.level !== 'L' || tiedLevel(scene.circuit, pin.leg) !== 'L') return [];
      const { vih } = thresholdsOf(pin.figures, scene.chip(chip.placed.part.id)?.supply ?? 0);
      return [{ pin: toPin(pin.leg), memory: toPart(chip.placed), measured: reading.volts, limit: vih }];
    }),
  message: ({ pin, memory, measured, limit }) =>
    say`${pin} is tied low: ${inVolts(measured)} (high from ${inVolts(limit)}), so the outputs of ${memory} are always high-impedance (Z). Wire it to +, or pull it up so that a button can pull it low.`,
});

export const writeEnableLowExamples = (): RuleExamples => ({
  bad: { points: 'U1.21', bench: memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to -j8') },
  good: { bench: memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9') },
});
