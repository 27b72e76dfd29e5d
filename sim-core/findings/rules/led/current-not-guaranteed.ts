/** An LED that a chip lights as a typical specimen, but that stays dark or dim if its outputs give no more than the data sheet guarantees. */

import { LED_STEPS } from '../../../run/readout/readings.ts';
import { inAmps, listed, type Ref, say } from '../../../sentence/wording.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule, inCountingOrder, toLed } from '../../rule.ts';

interface Data {
  readonly chip: Ref;
  readonly leds: readonly Ref[];
  /** guaranteed, typical, and from where an LED looks lit, of the one that gets least [A] */
  readonly measured: number;
  readonly typical: number;
  readonly limit: number;
}

export const ledCurrentNotGuaranteed = defineRule<Data>({
  code: 'led/current-not-guaranteed',
  severity: 'marginal',
  reads: 'marginal',
  role: 'effect',
  look({ leds }) {
    const drivers = [...new Set(leds.flatMap((l) => l.drivers.slice(0, 1)))];
    return drivers.map((driver) => {
      const its = leds.filter((l) => l.drivers[0] === driver);
      const worst = its.reduce((a, b) => (b.guaranteed < a.guaranteed ? b : a));
      return {
        chip: { kind: 'part', id: driver },
        leds: inCountingOrder(its.map((l) => toLed(l.site))),
        measured: worst.guaranteed,
        typical: worst.typical,
        limit: LED_STEPS.lit,
      };
    });
  },
  message: ({ chip, leds, measured, typical, limit }) => {
    const which = leds.length > 3 ? say`${leds[0] ?? ''} and ${leds.length - 1} more LEDs` : listed(leds);
    return say`${chip} lights ${which} with typical outputs only: ${inAmps(typical)}, but its data sheet guarantees ${inAmps(measured)} (an LED looks lit from ${inAmps(limit)}). Add a buffer, or let the output sink the LED’s current instead of sourcing it.`;
  },
});

/** /OE low and /WE high: the memory reads; FF gives current, 00 takes it. */
const reading = (contents: string, led: string): string =>
  memoryBench(`wire WOE from j16 to -j9\nwire WWE from j15 to +j9\nmemory U1 000 ${contents}\n${led}`);

export const ledCurrentNotGuaranteedExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: reading('FF', 'led LED1 from g23 to g30\nresistor R1 330 from f30 to -j20') },
  good: { bench: reading('00', 'led LED1 from g30 to g23\nresistor R1 1k from f30 to +j20') },
});
