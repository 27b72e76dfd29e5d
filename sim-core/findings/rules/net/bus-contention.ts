/** An output that another output, or a switch or wire to a supply's terminal, holds against what it pulls. */

import { contentions } from '../../contention.ts';
import { memoryBench } from '../../example-benches.ts';
import { distinct, toNet, toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const busContention = defineRule({
  code: 'net/bus-contention',
  severity: 'fault',
  reads: 'moment',
  look(scene) {
    const { circuit } = scene;
    return contentions(scene)
      .filter((f) => !f.other || f.amps > 0)
      .map((f) => {
        const limit = Math.min(f.chip.spec.mostPinCurrent.value, f.other?.chip.spec.mostPinCurrent.value ?? Number.POSITIVE_INFINITY);
        const measured = Math.abs(f.amps);
        const net = circuit.netOf(f.pin.leg);
        const terminal = f.terminal === undefined ? [] : toNet(circuit.nets.all[f.terminal]).slice(0, 1);
        return {
          at: distinct([toPin(f.pin.leg), ...(f.other ? [toPin(f.other.pin.leg)] : terminal)]),
          severity: measured > limit ? 'damage-risk' : 'fault',
          data: {
            measured,
            limit,
            source: f.chip.spec.mostPinCurrent.source,
            against: f.against,
            way: f.amps > 0 ? 'high' : 'low',
            volts: scene.at(net.index),
          },
        } as const;
      });
  },
  bad: {
    points: 'U1.9',
    bench: memoryBench('WOE wire j16 -j9\nWWE wire j15 +j9\nWF wire a20 a21\nU1 memory 000=01'),
  },
  good: { bench: memoryBench('WOE wire j16 -j9\nWWE wire j15 +j9\nWF wire a20 a21\nU1 memory 000=03') },
});
