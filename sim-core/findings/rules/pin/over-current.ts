/** An output that sources or sinks more than its largest steady current. Where outputs drive against each other, the rule for that speaks instead. */

import { limitCurrent } from '../../../fixes/series-resistor.ts';
import { inAmps, inOhms, listed, type Ref, say } from '../../../sentence/wording.ts';
import { contentions } from '../../contention.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { reachOf } from '../../resistive-reach.ts';
import { defineRule, inCountingOrder, toLed, toPin } from '../../rule.ts';
import { holdingResistor } from '../../rule-context.ts';

/** An LED that carries this share of the pin's current is fed by it. */
const SHARE = 0.05;

interface Data {
  readonly pin: Ref;
  /** those that the pin feeds */
  readonly leds: readonly Ref[];
  /** out of the pin or into it, and its largest steady current [A] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
  readonly way: 'sources' | 'sinks';
  /** a series resistor that keeps the limit [Ω] */
  readonly cure: number;
}

export const pinOverCurrent = defineRule<Data>({
  code: 'pin/over-current',
  severity: 'damage-risk',
  reads: 'moment',
  look(scene) {
    const { circuit } = scene;
    const contending = new Set(contentions(scene).map((f) => f.pin));
    return circuit.chips.flatMap((chip) =>
      chip.outputs.flatMap((pin) => {
        const amps = -scene.amps(pin.device);
        const { value: limit, source } = chip.spec.mostPinCurrent;
        if (Math.abs(amps) <= limit || contending.has(pin)) return [];
        const reached = reachOf(circuit).from(circuit.netOf(pin.leg).index, amps > 0 ? 'with' : 'against');
        const leds = circuit.leds.filter(
          (l) =>
            (scene.led(l)?.amps ?? 0) > SHARE * limit &&
            reached.has(circuit.netOf(l.anode).index) &&
            reached.has(circuit.netOf(l.cathode).index),
        );
        const cure = holdingResistor(scene.volts, limit / Math.max(leds.length, 1), leds[0]);
        const way = amps > 0 ? 'sources' : 'sinks';
        return [{ pin: toPin(pin.leg), leds: inCountingOrder(leds.map(toLed)), measured: Math.abs(amps), limit, source, way, cure }];
      }),
    );
  },
  message: ({ pin, leds, measured, limit, way, cure }) =>
    leds.length === 0
      ? say`${pin} ${way} ${inAmps(measured)} (limit ${inAmps(limit)}). Use at least ${inOhms(cure)} in series with its load.`
      : say`${listed(leds)} ${leds.length > 1 ? 'draw' : 'draws'} ${inAmps(measured)} from ${pin} (limit ${inAmps(limit)}). Use at least ${inOhms(cure)} in series${leds.length > 1 ? ' with each' : ''}.`,
  fixes: ({ leds: [led, another], cure }, bench) => (led && !another ? limitCurrent(bench, led, cure) : []),
});

export const pinOverCurrentExamples = (): RuleExamples => ({
  bad: {
    points: 'U1.13',
    bench: memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9\nled LED1 from g23 to g30\nwire WD from f30 to -j20'),
  },
  good: {
    bench: memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9\nled LED1 from g23 to g30\nresistor R1 330 from f30 to -j20'),
  },
});
