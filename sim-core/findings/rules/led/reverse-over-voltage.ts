/** An LED with more reverse voltage than it may have. */

import { inVolts, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toLed } from '../../rule.ts';

interface Data {
  readonly led: Ref;
  /** cathode against anode, and the most it bears [V] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
}

export const ledReverseOverVoltage = defineRule<Data>({
  code: 'led/reverse-over-voltage',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.leds.flatMap((site) => {
      const measured = -(scene.led(site)?.volts ?? 0);
      const { value: limit, source } = site.led.mostReverse;
      return measured > limit ? [{ led: toLed(site), measured, limit, source }] : [];
    }),
  message: ({ led, measured, limit }) =>
    say`${led} has ${inVolts(measured)} of reverse voltage (limit ${inVolts(limit)}). Reverse it, or lower the supply.`,
});

export const ledReverseOverVoltageExamples = (): RuleExamples => ({
  bad: {
    points: 'LED1',
    bench: `${FED.replace('PS1 5', 'PS1 9')}\nled LED1 from a14 to a10\nresistor R1 1k from b10 to b5\nwire W1 from c5 to +j3\nwire W2 from b14 to -j3`,
  },
  good: {
    bench: `${FED.replace('PS1 5', 'PS1 4')}\nled LED1 from a14 to a10\nresistor R1 1k from b10 to b5\nwire W1 from c5 to +j3\nwire W2 from b14 to -j3`,
  },
});
