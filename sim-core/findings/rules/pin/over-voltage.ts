/** A pin with more voltage than it bears: above its own absolute maximum, or so far outside the chip's supply that its clamp diodes carry too much. */

import { usualClampCurrent } from '../../../parts/figures/clamps.ts';
import type { ChipSite } from '../../../run/circuit/sites.ts';
import { clampsOf } from '../../../run/readout/stress-limits.ts';
import { inAmps, inOhms, inVolts, type Ref, say } from '../../../sentence/wording.ts';
import { nextUpIn } from '../../../units/e-series.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPin } from '../../rule.ts';
import type { RuleContext } from '../../rule-context.ts';

/** A chip whose supply is this far below its ground [V] is supplied backwards. */
const BACKWARDS = 0.2;
/** What the resistor of the cure lets through the diode [A]. */
const HARMLESS = 1e-3;

interface Ceiling {
  readonly pin: Ref;
  readonly why: 'most';
  /** against ground, and the absolute maximum [V] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
}

interface Clamped {
  readonly pin: Ref;
  readonly why: 'above' | 'below';
  /** through the clamp diode, and what it may carry [A] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
  /** of the pin, and of the chip's supply [V] */
  readonly volts: number;
  readonly supply: number;
  /** so much only in a chip that draws the most that its sheet allows */
  readonly most: boolean;
  /** a series resistor that lets little through [Ω] */
  readonly cure: number;
}

export const pinOverVoltage = defineRule<Ceiling | Clamped>({
  code: 'pin/over-voltage',
  severity: 'damage-risk',
  reads: 'moment',
  apart: ({ why }) => why,
  look: (scene) => scene.circuit.chips.flatMap((chip) => overVoltages(scene, chip)),
  message(data) {
    const { pin, measured, limit } = data;
    if (data.why === 'most')
      return say`${pin} is at ${inVolts(measured)} (limit ${inVolts(limit)}) and may break down. Lower that voltage.`;
    const beyond = data.why === 'above' ? `above the chip’s supply of ${inVolts(data.supply)}` : 'below ground';
    return say`${pin} is at ${inVolts(data.volts)}, ${beyond}: ${inAmps(measured)} through its clamp diode (limit ${inAmps(limit)})${data.most ? ' where the chip draws the most that its sheet allows' : ''}. Wire it to the chip’s own supply, or put ${inOhms(data.cure)} in series.`;
  },
});

function overVoltages(scene: RuleContext, chip: ChipSite): readonly (Ceiling | Clamped)[] {
  const { circuit, atMost } = scene;
  const ground = atMost.at(circuit.netOf(chip.ground.leg).index);
  const supply = atMost.at(circuit.netOf(chip.supply.leg).index) - ground;
  // of a chip whose supply is reversed another rule speaks: every pin is beyond one of the two then
  if (supply < -BACKWARDS) return [];
  return clampsOf(circuit, chip).flatMap(({ pin, clamps }): readonly (Ceiling | Clamped)[] => {
    const volts = atMost.at(circuit.netOf(pin.leg).index) - ground;
    const ceiling = chip.spec.mostVolts?.[pin.name];
    if (ceiling && volts > ceiling.value)
      return [{ pin: toPin(pin.leg), why: 'most', measured: volts, limit: ceiling.value, source: ceiling.source }];
    const measured = Math.max(0, ...clamps.map((device) => atMost.amps(device)));
    const { value: limit, source } = chip.spec.mostClampCurrent ?? usualClampCurrent;
    if (measured <= limit) return [];
    const cure = nextUpIn('E12', (volts < 0 ? -volts : volts - supply) / HARMLESS);
    const most = Math.max(0, ...clamps.map((device) => scene.amps(device))) <= limit;
    return [{ pin: toPin(pin.leg), why: volts < 0 ? 'below' : 'above', measured, limit, source, volts, supply, most, cure }];
  });
}

const second = (volts: number, hole: string) =>
  `bench-supply PS2 ${volts}\nswitch PS2 set 1\nwire X1 from PS2.- to -j40\nwire X2 from PS2.+ to ${hole}`;

export const pinOverVoltageExamples = (): RuleExamples => ({
  bad: { points: 'U1.8', bench: memoryBench(second(9, 'a19'), 'WA0') },
  good: { bench: memoryBench(second(12, 'j14'), 'WA9') },
});
