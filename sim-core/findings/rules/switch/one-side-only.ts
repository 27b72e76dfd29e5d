/** A button with pairs of legs that are one inside, wired on one pair only: it switches nothing, or what is on the pair is always connected. */

import type { Leg } from '../../../board/layout.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { ContactSite } from '../../../run/circuit/sites.ts';
import { its, type Ref, say } from '../../../sentence/wording.ts';
import { contactSide } from '../../contact-sides.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly part: Ref;
  /** the legs of one side that are wired */
  readonly wired: readonly Ref[];
  /** a leg of the other side */
  readonly idle: Ref;
}

export const oneSideOnly = defineRule<Data>({
  code: 'switch/one-side-only',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    circuit.contacts.flatMap((site) => {
      const [a, b] = site.legs.map((leg) => contactSide(circuit, site, leg));
      if (!a || !b || a.length < 2) return [];
      const used = [a, b].map((side) => side.filter((leg) => wiresOn(circuit, site, leg)));
      const [wired, [idle]] = used[0]?.length ? [used[0], b] : [used[1] ?? [], a];
      if (!idle || wired.length === 0 || used.every((side) => side.length > 0)) return [];
      return [{ part: toPart(site.placed), wired: wired.map(toPin), idle: toPin(idle) }];
    }),
  message: ({ part, wired: [first, second], idle }) =>
    first && second
      ? say`${part} is wired at ${its(first)} and ${its(second)}, which are connected inside it: pressing changes nothing. Move one of the two to the row of ${its(idle)}.`
      : say`${part} is wired at ${first ? its(first) : 'one side'} only: pressing connects nothing. Wire the other end to the row of ${its(idle)}.`,
});

/** Does this leg's row hold anything beside the part itself? */
function wiresOn(circuit: Circuit, { placed }: ContactSite, leg: Leg): boolean {
  const net = circuit.netOf(leg);
  return net.ends.length > 0 || net.legs.some((l) => l.part.id !== placed.part.id);
}

const bench = (): string => `
  ${FED}
  push-button S1 at e40
  resistor R1 330 from b54 to -j9
  led LED1 from a50 to a54
  wire W1 from a40 to +j3`;

export const oneSideOnlyExamples = (): RuleExamples => ({
  bad: { points: 'S1', bench: `${bench()}\nwire W2 from j40 to b50` },
  good: { bench: `${bench()}\nwire W2 from j42 to b50` },
});
