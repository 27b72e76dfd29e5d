/** An output that gives or takes more than its largest steady current. Where outputs fight, the rule for that speaks instead. */

import { contentions } from '../../contention.ts';
import { memoryBench } from '../../example-benches.ts';
import { toLed, toPin } from '../../refs.ts';
import { reachOf } from '../../resistive-reach.ts';
import { defineRule } from '../../rule.ts';
import { holdingResistor } from '../../rule-context.ts';

/** An LED that carries this share of the pin's current is fed by it. */
const SHARE = 0.05;

export const pinOverCurrent = defineRule({
  code: 'pin/over-current',
  severity: 'damage-risk',
  reads: 'moment',
  look(scene) {
    const { circuit } = scene;
    const fighting = new Set(contentions(scene).map((f) => f.pin));
    return circuit.chips.flatMap((chip) =>
      chip.outputs.flatMap((pin) => {
        const amps = -scene.amps(pin.device);
        const { value: limit, source } = chip.spec.mostPinCurrent;
        if (Math.abs(amps) <= limit || fighting.has(pin)) return [];
        const reached = reachOf(circuit).from(circuit.netOf(pin.leg).index, amps > 0 ? 'with' : 'against');
        const leds = circuit.leds.filter(
          (l) =>
            (scene.led(l)?.amps ?? 0) > SHARE * limit &&
            reached.has(circuit.netOf(l.anode).index) &&
            reached.has(circuit.netOf(l.cathode).index),
        );
        const cure = holdingResistor(scene.volts, limit / Math.max(leds.length, 1), leds[0]);
        return [
          {
            at: [toPin(pin.leg), ...leds.map(toLed)],
            data: { measured: Math.abs(amps), limit, source, way: amps > 0 ? 'gives' : 'takes', cure },
          },
        ];
      }),
    );
  },
  bad: { points: 'U1.13', bench: memoryBench('WOE wire j16 -j9\nWWE wire j15 +j9\nD1 led g23 g30\nWD wire f30 -j20') },
  good: { bench: memoryBench('WOE wire j16 -j9\nWWE wire j15 +j9\nD1 led g23 g30\nR1 resistor f30 -j20 ohms=330') },
});
