/** A lamp the wrong way round: no current can come to its anode and leave from its cathode, but the other way it could. */
import type { Circuit, LampSite } from '../../run/circuit.ts';
import { FED } from '../example-benches.ts';
import { type Reach, reachOf, type Way } from '../reach.ts';
import { toLamp, toPin } from '../refs.ts';
import { defineRule } from '../rule.ts';

export const lampReversed = defineRule({
  code: 'lamp/reversed',
  severity: 'broken',
  reads: 'wiring',
  look: (circuit) =>
    circuit.lamps
      .filter((site) => reversed(circuit, site))
      .map((site) => ({
        at: [toLamp(site), toPin(site.anode), toPin(site.cathode)],
        data: { anode: site.anode.pin, cathode: site.cathode.pin },
      })),
  bad: { points: 'D1', bench: `${FED}\nD1 led a14 a10\nR1 resistor b10 b5 ohms=330\nW1 lead c5 +j3\nW2 lead b14 -j3` },
  good: { bench: `${FED}\nD1 led a10 a14\nR1 resistor b10 b5 ohms=330\nW1 lead c5 +j3\nW2 lead b14 -j3` },
});

export function reversed(circuit: Circuit, site: LampSite): boolean {
  const reach = reachOf(circuit);
  const [anode, cathode] = [circuit.netOf(site.anode).index, circuit.netOf(site.cathode).index];
  const gives = (net: number, way: Way) => some(reach, reach.from(net, way), reach.plus);
  const takes = (net: number, way: Way) => some(reach, reach.from(net, way), reach.minus);
  // the wrong way round counts only by a way of its own: through other lamps anything can reach anything
  return (
    anode !== cathode && !(gives(anode, 'against') && takes(cathode, 'with')) && gives(cathode, 'no lamps') && takes(anode, 'no lamps')
  );
}

/** An output gives and takes. */
const some = (reach: Reach, reached: ReadonlyMap<number, number>, ends: ReadonlySet<number>): boolean =>
  [...reached.keys()].some((net) => ends.has(net) || reach.outputs.has(net));
