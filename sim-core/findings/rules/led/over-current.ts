/** An LED that carries more than its largest steady current. */

import { limitCurrent } from '../../../fixes/series-resistor.ts';
import { inAmps, inOhms, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toLed } from '../../rule.ts';
import { holdingResistor } from '../../rule-context.ts';

interface Data {
  readonly led: Ref;
  /** its current, and its largest steady current [A] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
  /** a series resistor that keeps the limit [Ω] */
  readonly cure: number;
}

export const ledOverCurrent = defineRule<Data>({
  code: 'led/over-current',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.leds.flatMap((site) => {
      const measured = scene.led(site)?.amps ?? 0;
      const { value: limit, source } = site.led.mostCurrent;
      return measured > limit ? [{ led: toLed(site), measured, limit, source, cure: holdingResistor(scene.volts, limit, site) }] : [];
    }),
  message: ({ led, measured, limit, cure }) =>
    say`${led} draws ${inAmps(measured)} (limit ${inAmps(limit)}). Use at least ${inOhms(cure)} in series.`,
  fixes: ({ led, cure }, bench) => limitCurrent(bench, led, cure),
});

export const ledOverCurrentExamples = (): RuleExamples => ({
  bad: {
    points: 'LED1',
    bench: `${FED}\nled LED1 from a10 to a14\nresistor R1 68 from b10 to b5\nwire W1 from c5 to +j3\nwire W2 from b14 to -j3`,
  },
  good: { bench: `${FED}\nled LED1 from a10 to a14\nresistor R1 120 from b10 to b5\nwire W1 from c5 to +j3\nwire W2 from b14 to -j3` },
});
