/** A switch or button of which both sides of a pole are one piece of metal: moving it changes nothing. Two legs in one row have a rule of their own. */

import type { Leg } from '../../../board/layout.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { ContactSite } from '../../../run/circuit/sites.ts';
import { inOhms, listed, type Ref, say } from '../../../sentence/wording.ts';
import { contactSide } from '../../contact-sides.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { partingWires } from '../../parting-wires.ts';
import { METAL, reachOf } from '../../resistive-reach.ts';
import { defineRule, toPart, toPin, toWire } from '../../rule.ts';

interface Data {
  readonly part: Ref;
  readonly legs: readonly Ref[];
  /** the fewest whose removal parts the two sides; none: something else joins them */
  readonly wires: readonly Ref[];
  /** each of them alone parts the two sides */
  readonly any: boolean;
  /** from 1 */
  readonly pole: number;
  readonly momentary: boolean;
  /** between the sides while the contact is open, and what an open contact has [Ω] */
  readonly measured: number;
  readonly limit: number;
}

export const bothSidesOneNet = defineRule<Data>({
  code: 'switch/both-sides-one-net',
  severity: 'fault',
  reads: 'wiring',
  apart: ({ pole }) => pole,
  look: (circuit) =>
    circuit.contacts.flatMap((site) => {
      const [a, b] = site.legs;
      const measured = ohmsBeside(circuit, site);
      if (a.strip === b.strip || measured === undefined || measured >= METAL) return [];
      return [
        {
          part: toPart(site.placed),
          legs: site.legs.map(toPin),
          ...between(circuit, site),
          pole: site.pole + 1,
          momentary: site.contact.momentary,
          measured,
          limit: site.contact.leastOff,
        },
      ];
    }),
  message: ({ part, wires, any, pole, momentary, measured, limit }) => {
    const who = momentary ? say`${part}` : say`Pole ${pole} of ${part}`;
    const joined =
      wires.length > 0 ? say`${listed(wires)} ${wires.length > 1 ? 'join' : 'joins'} its two sides` : 'its two sides are joined';
    const cure = wires.length > 0 ? say`Remove ${listed(wires, any ? 'or' : 'and')}, or move one end` : 'Part the two sides';
    return say`${who} switches nothing: ${joined} (${inOhms(measured)} while it is open; an open contact has at least ${inOhms(limit)}). ${cure}.`;
  },
});

/** Between the two sides of this pole, past its own contact, with every contact open; undefined: nothing joins them. */
function ohmsBeside(circuit: Circuit, { legs: [a, b] }: ContactSite): number | undefined {
  return reachOf(circuit)
    .from(circuit.netOf(a).index, 'no LEDs', () => true)
    .get(circuit.netOf(b).index);
}

/** Of the first two legs of both sides that wires make one net. */
function between(circuit: Circuit, site: ContactSite): Pick<Data, 'wires' | 'any'> {
  const [one, other] = site.legs.map((leg) => contactSide(circuit, site, leg)) as [Leg[], Leg[]];
  const pairs = one.flatMap((a) => other.map((b) => partingWires(circuit, a, b)));
  const { wires, any } = pairs.find((p) => p.wires.length > 0) ?? { wires: [], any: false };
  return { wires: wires.map(toWire), any };
}

const bench = (): string => `
  ${FED}
  dip-switch S1 at e40 with poles 2
  wire W1 from j40 to +j9
  wire W2 from a40 to a50
  led LED1 from b50 to b54
  resistor R1 330 from a54 to -j20`;

export const bothSidesOneNetExamples = (): RuleExamples => ({
  bad: { points: 'S1', bench: `${bench()}\nwire W3 from c50 to i40` },
  good: { bench: `${bench()}\nwire W3 from c50 to i41` },
});
