/** An LED the wrong way round: no current can come to its anode and leave from its cathode, but the other way it could. */

import { reversePart } from '../../../fixes/reverse-part.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { LedSite } from '../../../run/circuit/sites.ts';
import { type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { type Reach, type ResistivePath, reachOf } from '../../resistive-reach.ts';
import { defineRule, toLed, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly led: Ref;
  readonly anode: Ref;
  readonly cathode: Ref;
  /** a display that holds it: its legs cannot change places; and whether its LEDs share a leg */
  readonly display?: { readonly part: Ref; readonly common: boolean };
}

export const ledReversed = defineRule<Data>({
  code: 'led/reversed',
  severity: 'fault',
  reads: 'wiring',
  role: 'effect',
  look: (circuit) =>
    circuit.leds
      .filter((site) => reversed(circuit, site))
      .map((site) => ({
        led: toLed(site),
        anode: toPin(site.anode),
        cathode: toPin(site.cathode),
        ...(site.led.name === '' ? {} : { display: { part: toPart(site.placed), common: sharesLeg(circuit, site) } }),
      })),
  message: ({ led, anode, cathode, display }) =>
    say`${led} is reversed: current can reach ${cathode}, but must enter at ${anode}. ${display ? cureOf(display) : 'Swap its legs'}.`,
  fixes: ({ led, display }, bench) => (display ? [] : reversePart(bench, led)),
});

const cureOf = ({ part, common }: NonNullable<Data['display']>) =>
  common
    ? say`Check that ${part} has the right polarity, common anode or common cathode, and is not end for end`
    : say`Rotate ${part} by half a turn, or swap its two wires`;

const sharesLeg = ({ leds }: Circuit, { placed, anode, cathode }: LedSite): boolean =>
  leds.filter((l) => l.placed === placed && (l.anode === anode || l.cathode === cathode)).length > 1;

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
  bad: {
    points: 'LED1',
    bench: `${FED}\nled LED1 from a14 to a10\nresistor R1 330 from b10 to b5\nwire W1 from c5 to +j3\nwire W2 from b14 to -j3`,
  },
  good: { bench: `${FED}\nled LED1 from a10 to a14\nresistor R1 330 from b10 to b5\nwire W1 from c5 to +j3\nwire W2 from b14 to -j3` },
});
