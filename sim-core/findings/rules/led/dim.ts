/** An LED whose current is enough to see it and too small to look lit. */

import { LED_STEPS } from '../../../run/readout/readings.ts';
import { inAmps, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toLed } from '../../rule.ts';

interface Data {
  readonly led: Ref;
  /** its current, and from where it looks lit [A] */
  readonly measured: number;
  readonly limit: number;
}

export const ledDim = defineRule<Data>({
  code: 'led/dim',
  severity: 'suggestion',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.leds.flatMap((site) => {
      const reading = scene.led(site);
      return reading?.brightness === 'dim' ? [{ led: toLed(site), measured: reading.amps, limit: LED_STEPS.lit }] : [];
    }),
  message: ({ led, measured, limit }) =>
    say`${led} is dim: ${inAmps(measured)} (looks lit from ${inAmps(limit)}). Use a smaller series resistor, or find what else takes its current.`,
});

export const ledDimExamples = (): RuleExamples => ({
  bad: {
    points: 'LED1',
    bench: `${FED}\nled LED1 from a10 to a14\nresistor R1 10k from b10 to b5\nwire W1 from c5 to +j3\nwire W2 from b14 to -j3`,
  },
  good: { bench: `${FED}\nled LED1 from a10 to a14\nresistor R1 1k from b10 to b5\nwire W1 from c5 to +j3\nwire W2 from b14 to -j3` },
});
