/** What sets an LED's current: the resistors that it shares it with, and what the rest of its way takes. */

import { reachOf } from '../findings/resistive-reach.ts';
import { toLed, toPart, toPin } from '../findings/rule.ts';
import { forwardAt } from '../findings/rule-context.ts';
import type { Branch, LedSite } from '../run/circuit/sites.ts';
import { LED_STEPS } from '../run/readout/readings.ts';
import { nextUpIn } from '../units/e-series.ts';
import type { Reason } from './answer.ts';
import { type CandidateFix, type ExplanationQuestion, type ExplanationStep, explanationStep, replacedPart } from './explanation-step.ts';

/** A resistor in the LED's way carries its current, to within this part of it, or more. */
const SAME = 0.03;
/** An LED that is to look lit is given this much [A]; our choice, in the middle of LED_STEPS.lit and a pin's usual limit. */
const AIM = 5e-3;

/** A resistor that takes less than this part of the supply's voltage is not what makes an LED dim. */
const WORTH_NAMING = 0.2;

interface InSeries {
  readonly branch: Branch;
  readonly ohms: number;
  readonly amps: number;
}

/** The resistors that the LED's current passes, alone or with that of others, the one that takes most volts first. */
function seriesResistors({ scene }: ExplanationQuestion, site: LedSite, amps: number): InSeries[] {
  const { circuit } = scene;
  const reach = reachOf(circuit);
  const path = new Set([
    ...reach.from(circuit.netOf(site.cathode).index, 'with').keys(),
    ...reach.from(circuit.netOf(site.anode).index, 'against').keys(),
  ]);
  return circuit.branches
    .filter(
      (b) => b.placed.kind.group === 'passive' && b.device.kind === 'conductance' && b.legs.every((l) => path.has(circuit.netOf(l).index)),
    )
    .map((branch) => ({ branch, ohms: 1 / circuit.network.conductance(branch.device), amps: Math.abs(scene.amps(branch.device)) }))
    .filter((r) => r.amps >= (1 - SAME) * amps)
    .sort((a, b) => b.ohms * b.amps - a.ohms * a.amps);
}

/** Why an LED is only dim while its supply is as it is set. */
export function whyWeak(q: ExplanationQuestion, site: LedSite, amps: number): ExplanationStep {
  const { scene } = q;
  const [largest] = seriesResistors(q, site, amps);
  const across = largest ? largest.amps * largest.ohms : 0;
  if (!largest || across < WORTH_NAMING * scene.volts) {
    const data = { volts: scene.led(site)?.volts ?? 0, needs: forwardAt(site.junction, LED_STEPS.lit), supply: scene.volts };
    return explanationStep([{ code: 'too-little-voltage', at: [toLed(site)], data }]);
  }
  const usual = usualResistor(q, site);
  const better = usual ?? nextUpIn('E12', Math.max(10, (scene.volts - (scene.led(site)?.volts ?? 0)) / AIM));
  const reason: Reason = {
    code: 'resistor-large',
    at: [toPart(largest.branch.placed)],
    data: { ohms: largest.ohms, volts: across, ...(usual === undefined ? {} : { usual }) },
  };
  return explanationStep([...drivingOutput(q, site), reason], [changeResistor(largest.branch, better)]);
}

/** What holds a lit LED's current where it is; for one that takes too much, a larger resistor. */
export function whatLimits(q: ExplanationQuestion, site: LedSite): ExplanationStep {
  const amps = q.scene.led(site)?.amps ?? 0;
  const [largest] = seriesResistors(q, site, amps);
  if (!largest) return explanationStep([{ code: 'nothing-limits', at: [toLed(site)], data: { amps, most: site.led.mostCurrent.value } }]);
  const reason: Reason = {
    code: 'resistor-limits',
    at: [toPart(largest.branch.placed)],
    data: { ohms: largest.ohms, volts: amps * largest.ohms },
  };
  const over = amps > site.led.mostCurrent.value;
  return explanationStep([reason], over ? [changeResistor(largest.branch, nextUpIn('E12', (largest.ohms * amps) / AIM))] : []);
}

const changeResistor = ({ placed: { part } }: Branch, ohms: number): CandidateFix =>
  replacedPart('change-resistor', [{ kind: 'part', id: part.id }], { ohms }, part, { ...part, params: { ...part.params, ohms } });

/** The value that most of the other LEDs' resistors have. */
export function usualResistor(q: ExplanationQuestion, site: LedSite): number | undefined {
  const { scene } = q;
  const count = new Map<number, number>();
  for (const other of scene.circuit.leds) {
    if (other === site) continue;
    for (const b of scene.circuit.branches)
      if (
        b.placed.kind.group === 'passive' &&
        b.device.kind === 'conductance' &&
        b.legs.some((l) => scene.circuit.netOf(l) === scene.circuit.netOf(other.cathode))
      ) {
        const ohms = Math.round(1 / scene.circuit.network.conductance(b.device));
        count.set(ohms, (count.get(ohms) ?? 0) + 1);
      }
  }
  const [most] = [...count].sort((a, b) => b[1] - a[1] || a[0] - b[0]);
  return most?.[0];
}

/** The pin that gives the current, if one does. */
function drivingOutput({ scene }: ExplanationQuestion, site: LedSite): Reason[] {
  for (const chip of scene.circuit.chips)
    for (const o of chip.outputs) {
      const net = scene.circuit.netOf(o.leg);
      const pin = scene.chip(chip.placed.part.id)?.pins.find((p) => p.pin === o.leg.pin);
      if (pin && pin.amps > 0 && (net === scene.circuit.netOf(site.anode) || net === scene.circuit.netOf(site.cathode)))
        return [{ code: 'output-drives', at: [toPin(o.leg)], data: { level: pin.level ?? 'X', volts: pin.volts, amps: pin.amps } }];
    }
  return [];
}
