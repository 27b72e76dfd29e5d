/** A pin with more voltage than it bears: above its own absolute maximum, or so far outside the chip's supply that its diodes carry too much. */
import { usualClampCurrent } from '../../../parts/figures/clamps.ts';
import { clampsOf } from '../../../run/readout/stress-limits.ts';
import { nextUpIn } from '../../../units/e-series.ts';
import { memoryBench } from '../../example-benches.ts';
import { toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

/** What the resistor of the cure lets through the diode [A]. */
const HARMLESS = 1e-3;

const second = (volts: number, hole: string) => `PS2 bench-supply volts=${volts}\nPS2 hands 1\nX1 wire PS2.- -j40\nX2 wire PS2.+ ${hole}`;

export const pinOverVoltage = defineRule({
  code: 'pin/over-voltage',
  severity: 'damage-risk',
  reads: 'moment',
  look(scene) {
    const { circuit } = scene;
    return circuit.chips.flatMap((chip) => {
      const ground = scene.at(circuit.netOf(chip.ground.leg).index);
      const supply = scene.at(circuit.netOf(chip.supply.leg).index) - ground;
      return clampsOf(circuit, chip).flatMap(({ pin, clamps }) => {
        const measured = scene.at(circuit.netOf(pin.leg).index) - ground;
        const most = chip.spec.mostVolts?.[pin.name];
        if (most && measured > most.value)
          return [{ at: [toPin(pin.leg)], data: { why: 'most', measured, limit: most.value, source: most.source } }];
        const amps = Math.max(0, ...clamps.map((device) => scene.amps(device)));
        const { value: limit, source } = chip.spec.mostClampCurrent ?? usualClampCurrent;
        if (amps <= limit) return [];
        const beyond = measured < 0 ? -measured : measured - supply;
        const cure = nextUpIn('E12', beyond / HARMLESS);
        return [
          {
            at: [toPin(pin.leg)],
            data: { why: measured < 0 ? 'below' : 'above', measured: amps, limit, source, volts: measured, supply, cure },
          },
        ];
      });
    });
  },
  bad: { points: 'U1.8', bench: memoryBench(second(9, 'a19'), 'WA0') },
  good: { bench: memoryBench(second(12, 'j14'), 'WA9') },
});
