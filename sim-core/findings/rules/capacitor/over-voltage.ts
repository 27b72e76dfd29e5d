/** A capacitor with more voltage across it than it is rated for. */

import { inVolts, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { polarised } from '../../polarised.ts';
import { defineRule, toPart } from '../../rule.ts';

interface Data {
  readonly part: Ref;
  /** across it, and what it is rated for [V] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
}

export const capacitorOverVoltage = defineRule<Data>({
  code: 'capacitor/over-voltage',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    polarised(scene).flatMap(({ placed, volts, polar }) => {
      const { value: limit, source } = polar.most(placed.params);
      return volts > limit ? [{ part: toPart(placed), measured: volts, limit, source }] : [];
    }),
  message: ({ part, measured, limit }) =>
    say`${part} has ${inVolts(measured)} across it (rated ${inVolts(limit)}). Use one with a higher rating, or lower the supply.`,
});

export const capacitorOverVoltageExamples = (): RuleExamples => ({
  bad: {
    points: 'C1',
    bench: `${FED.replace('PS1 5', 'PS1 12')}\nelectrolytic C1 from a10 to a14 with volts 10\nwire W1 from c10 to +j3\nwire W2 from b14 to -j3`,
  },
  good: {
    bench: `${FED.replace('PS1 5', 'PS1 12')}\nelectrolytic C1 from a10 to a14 with volts 16\nwire W1 from c10 to +j3\nwire W2 from b14 to -j3`,
  },
});
