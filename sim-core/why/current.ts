/** What sets a lamp's current: the resistors that it shares it with, and what the rest of its way takes. */
import { reachOf } from '../findings/reach.ts';
import { toLamp, toPart, toPin } from '../findings/refs.ts';
import { forwardAt } from '../findings/scene.ts';
import type { Branch, LampSite } from '../run/circuit.ts';
import { LAMP_STEPS } from '../run/readings.ts';
import { nextUpIn } from '../units/e-series.ts';
import { type Account, account, type Mend, type Question } from './account.ts';
import type { Reason } from './answer.ts';

/** A resistor in the lamp's way carries its current, to within this part of it, or more. */
const SAME = 0.03;
/** A lamp that is to look lit is given this much [A]; our choice, in the middle of LAMP_STEPS.lit and a pin's usual limit. */
const AIM = 5e-3;

/** A resistor that takes less than this part of the supply's voltage is not what makes a lamp dim. */
const WORTH_NAMING = 0.2;

interface InSeries {
  readonly branch: Branch;
  readonly ohms: number;
  readonly amps: number;
}

/** The resistors that the lamp's current passes, alone or with that of others, the one that takes most volts first. */
function seriesResistors({ scene }: Question, site: LampSite, amps: number): InSeries[] {
  const { circuit } = scene;
  const reach = reachOf(circuit);
  const way = new Set([
    ...reach.from(circuit.netOf(site.cathode).index, 'with').keys(),
    ...reach.from(circuit.netOf(site.anode).index, 'against').keys(),
  ]);
  return circuit.branches
    .filter(
      (b) => b.placed.kind.group === 'passive' && b.device.kind === 'conductance' && b.legs.every((l) => way.has(circuit.netOf(l).index)),
    )
    .map((branch) => ({ branch, ohms: 1 / circuit.network.conductance(branch.device), amps: Math.abs(scene.amps(branch.device)) }))
    .filter((r) => r.amps >= (1 - SAME) * amps)
    .sort((a, b) => b.ohms * b.amps - a.ohms * a.amps);
}

/** Why a lamp is only dim. */
export function whyWeak(q: Question, site: LampSite, amps: number): Account {
  const { scene } = q;
  const [largest] = seriesResistors(q, site, amps);
  const supply = scene.readings.supplies.find((s) => s.limiting);
  if (supply)
    return account([{ code: 'supply-limits', at: [{ kind: 'part', id: supply.part }], data: { amps: supply.amps, volts: supply.volts } }]);
  const across = largest ? largest.amps * largest.ohms : 0;
  if (!largest || across < WORTH_NAMING * scene.volts) {
    const data = { volts: scene.lamp(site)?.volts ?? 0, needs: forwardAt(site.junction, LAMP_STEPS.lit), supply: scene.volts };
    return account([{ code: 'too-little-voltage', at: [toLamp(site)], data }]);
  }
  const usual = usualResistor(q, site);
  const better = usual ?? nextUpIn('E12', Math.max(10, (scene.volts - (scene.lamp(site)?.volts ?? 0)) / AIM));
  const reason: Reason = {
    code: 'resistor-large',
    at: [toPart(largest.branch.placed)],
    data: { ohms: largest.ohms, volts: across, ...(usual === undefined ? {} : { usual }) },
  };
  return account([...gives(q, site), reason], [refit(largest.branch, better)]);
}

/** What holds a lit lamp's current where it is; for one that takes too much, a larger resistor. */
export function whatLimits(q: Question, site: LampSite): Account {
  const amps = q.scene.lamp(site)?.amps ?? 0;
  const [largest] = seriesResistors(q, site, amps);
  if (!largest) return account([{ code: 'nothing-limits', at: [toLamp(site)], data: { amps, most: site.lamp.mostCurrent.value } }]);
  const reason: Reason = {
    code: 'resistor-limits',
    at: [toPart(largest.branch.placed)],
    data: { ohms: largest.ohms, volts: amps * largest.ohms },
  };
  const over = amps > site.lamp.mostCurrent.value;
  return account([reason], over ? [refit(largest.branch, nextUpIn('E12', (largest.ohms * amps) / AIM))] : []);
}

const refit = (branch: Branch, ohms: number): Mend => {
  const { part } = branch.placed;
  return {
    code: 'fit-resistor',
    at: [toPart(branch.placed)],
    data: { ohms },
    change: { op: 'replace-part', before: part, after: { ...part, params: { ...part.params, ohms } } },
  };
};

/** The value that most of the other lamps' resistors have. */
function usualResistor(q: Question, site: LampSite): number | undefined {
  const { scene } = q;
  const count = new Map<number, number>();
  for (const other of scene.circuit.lamps) {
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
function gives({ scene }: Question, site: LampSite): Reason[] {
  for (const chip of scene.circuit.chips)
    for (const o of chip.outputs) {
      const net = scene.circuit.netOf(o.leg);
      const pin = scene.chip(chip.placed.part.id)?.pins.find((p) => p.pin === o.leg.pin);
      if (pin && pin.amps > 0 && (net === scene.circuit.netOf(site.anode) || net === scene.circuit.netOf(site.cathode)))
        return [{ code: 'output-gives', at: [toPin(o.leg)], data: { level: pin.level ?? 'X', volts: pin.volts, amps: pin.amps } }];
    }
  return [];
}
