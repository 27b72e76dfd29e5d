/** An LED with nothing in its path that holds its current: less than METAL ohms of plain resistance between what feeds it and what takes its current. */
import type { Circuit, LedSite } from '../../../run/circuit/circuit.ts';
import { FED } from '../../example-benches.ts';
import { distinct, toLed, toPin } from '../../refs.ts';
import { METAL, reachOf } from '../../resistive-reach.ts';
import { defineRule } from '../../rule.ts';
import { holdingResistor } from '../../rule-context.ts';

/** What the cure aims at [A]: "10 mA, an ordinary indicator", common practice, no source. */
const AIM = 10e-3;

export const ledNoSeriesResistor = defineRule({
  code: 'led/no-series-resistor',
  severity: 'damage-risk',
  reads: 'wiring',
  look: (circuit) =>
    circuit.leds.flatMap((site) => {
      const path = barestPath(circuit, site);
      if (!path || path.ohms >= METAL) return [];
      const volts = Math.max(0, ...circuit.supplies.map((s) => circuit.network.supplyOf(s.device).volts));
      const ends = [path.from, path.to].flatMap((net) => endsAt(circuit, net));
      return [
        {
          at: distinct([toLed(site), ...ends]),
          data: { measured: path.ohms, limit: METAL, cure: holdingResistor(volts, AIM, site), aim: AIM },
        },
      ];
    }),
  bad: { points: 'D1', bench: `${FED}\nD1 led a10 a14\nW1 wire b10 +j3\nW2 wire b14 -j3` },
  good: { bench: `${FED}\nD1 led a10 a14\nR1 resistor b10 b5 ohms=330\nW1 wire c5 +j3\nW2 wire b14 -j3` },
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
      if (to !== from && (reach.minus.has(to) || reach.outputs.has(to)) && (!best || a + b < best.ohms)) best = { from, to, ohms: a + b };
  }
  return best;
}

const endsAt = (circuit: Circuit, net: number) => [
  ...circuit.chips.flatMap((c) => c.outputs.filter((o) => circuit.netOf(o.leg).index === net).map((o) => toPin(o.leg))),
  ...circuit.supplies.flatMap((s) => [s.plus, s.minus].filter((leg) => circuit.netOf(leg).index === net).map(toPin)),
];
