/** An LED with nothing in its path that limits its current: less than METAL ohms of plain resistance between what feeds it and what takes its current. */

import { limitCurrent } from '../../../fixes/series-resistor.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { LedSite } from '../../../run/circuit/sites.ts';
import { inAmps, inOhms, type Ref, say } from '../../../sentence/wording.ts';
import { compareCounting } from '../../../units/text-list.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { METAL, reachOf } from '../../resistive-reach.ts';
import { defineRule, inCountingOrder, toLed, toPin } from '../../rule.ts';
import { holdingResistor } from '../../rule-context.ts';

/** What the fix aims at [A]: "10 mA, an ordinary indicator", common practice, no source. */
const AIM = 10e-3;

interface Data {
  readonly led: Ref;
  /** what its path goes from and to: outputs and terminals */
  readonly ends: readonly Ref[];
  /** in its path, and what counts as a limit [Ω] */
  readonly measured: number;
  readonly limit: number;
  /** a series resistor [Ω], and the current that it aims at [A] */
  readonly cure: number;
  readonly aim: number;
}

export const ledNoSeriesResistor = defineRule<Data>({
  code: 'led/no-series-resistor',
  severity: 'damage-risk',
  reads: 'wiring',
  look: (circuit) =>
    circuit.leds.flatMap((site) => {
      const path = barestPath(circuit, site);
      if (!path || path.ohms >= METAL) return [];
      const volts = Math.max(0, ...circuit.supplies.map((s) => circuit.network.supplyOf(s.device).volts));
      const ends = [path.from, path.to].flatMap((net) => endsAt(circuit, net).slice(0, 1));
      return [{ led: toLed(site), ends, measured: path.ohms, limit: METAL, cure: holdingResistor(volts, AIM, site), aim: AIM }];
    }),
  message: ({ led, ends: [from, to], measured, limit, cure, aim }) => {
    const path = from && to ? say` from ${from} to ${to}` : '';
    const has = measured < 1 ? 'no series resistor' : `only ${inOhms(measured)} in series`;
    return say`${led} has ${has}${path} (at least ${inOhms(limit)}). Add ${inOhms(cure)} in series: ${inAmps(aim)} at most.`;
  },
  fixes: ({ led, cure }, bench) => limitCurrent(bench, led, cure),
});

/** Through closed switches and other LEDs too; from a plus terminal or an output, to another output or a minus terminal. */
function barestPath(circuit: Circuit, site: LedSite): { from: number; to: number; ohms: number } | undefined {
  const reach = reachOf(circuit);
  const [anode, cathode] = [circuit.netOf(site.anode).index, circuit.netOf(site.cathode).index];
  if (anode === cathode) return undefined;
  const above = reach.from(anode, 'against');
  const below = reach.from(cathode, 'with');
  let best: { from: number; to: number; ohms: number } | undefined;
  for (const [from, a] of above) {
    if (!reach.plus.has(from) && !reach.outputs.has(from)) continue;
    for (const [to, b] of below)
      if (to !== from && (reach.minus.has(to) || reach.outputs.has(to))) {
        const way = { from, to, ohms: a + b };
        const nearer = !best || way.ohms < best.ohms;
        if (nearer || (way.ohms === best?.ohms && compareCounting(namesOf(circuit, way), namesOf(circuit, best)) < 0)) best = way;
      }
  }
  return best;
}

const endsAt = (circuit: Circuit, net: number): readonly Ref[] => [
  ...inCountingOrder(circuit.chips.flatMap((c) => c.outputs.filter((o) => circuit.netOf(o.leg).index === net).map((o) => toPin(o.leg)))),
  ...inCountingOrder(circuit.supplies.flatMap((s) => [s.plus, s.minus].filter((leg) => circuit.netOf(leg).index === net).map(toPin))),
];

/** The names of both ends: of ways with as many ohms the first in counting order is taken. */
const namesOf = (circuit: Circuit, { from, to }: { readonly from: number; readonly to: number }): string =>
  [from, to].map((net) => endsAt(circuit, net)[0]?.id).join(' ');

export const ledNoSeriesResistorExamples = (): RuleExamples => ({
  bad: { points: 'LED1', bench: `${FED}\nled LED1 from a10 to a14\nwire W1 from b10 to +j3\nwire W2 from b14 to -j3` },
  good: { bench: `${FED}\nled LED1 from a10 to a14\nresistor R1 330 from b10 to b5\nwire W1 from c5 to +j3\nwire W2 from b14 to -j3` },
});
