/** An LED the wrong way round: no current can come to its anode and leave from its cathode, but the other way it could. */

import { reversePart } from '../../../repair/reverse-part.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { LedSite } from '../../../run/circuit/sites.ts';
import type { Ref } from '../../../sentence/ref.ts';
import { say } from '../../../sentence/wording.ts';
import type { RuleExamples } from '../../example.ts';
import { FED } from '../../example-benches.ts';
import { toLed, toPin } from '../../refs.ts';
import { type Reach, type ResistivePath, reachOf } from '../../resistive-reach.ts';
import { defineRule } from '../../rule.ts';

interface Data {
  readonly led: Ref;
  readonly anode: Ref;
  readonly cathode: Ref;
}

export const ledReversed = defineRule<Data>({
  code: 'led/reversed',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    circuit.leds
      .filter((site) => reversed(circuit, site))
      .map((site) => ({ led: toLed(site), anode: toPin(site.anode), cathode: toPin(site.cathode) })),
  message: ({ led, anode, cathode }) => say`${led} is reversed: current can reach ${cathode}, but must enter at ${anode}. Swap its legs.`,
  fixes: ({ led }, bench) => reversePart(bench, led),
});

export function reversed(circuit: Circuit, site: LedSite): boolean {
  const reach = reachOf(circuit);
  const [anode, cathode] = [circuit.netOf(site.anode).index, circuit.netOf(site.cathode).index];
  const gives = (net: number, way: ResistivePath) => some(reach, reach.from(net, way), reach.plus);
  const takes = (net: number, way: ResistivePath) => some(reach, reach.from(net, way), reach.minus);
  // the wrong way round counts only by a way of its own: through other LEDs anything can reach anything
  return anode !== cathode && !(gives(anode, 'against') && takes(cathode, 'with')) && gives(cathode, 'no LEDs') && takes(anode, 'no LEDs');
}

/** An output gives and takes. */
const some = (reach: Reach, reached: ReadonlyMap<number, number>, ends: ReadonlySet<number>): boolean =>
  [...reached.keys()].some((net) => ends.has(net) || reach.outputs.has(net));

export const ledReversedExamples = (): RuleExamples => ({
  bad: { points: 'D1', bench: `${FED}\nD1 led a14 a10\nR1 resistor b10 b5 ohms=330\nW1 wire c5 +j3\nW2 wire b14 -j3` },
  good: { bench: `${FED}\nD1 led a10 a14\nR1 resistor b10 b5 ohms=330\nW1 wire c5 +j3\nW2 wire b14 -j3` },
});
