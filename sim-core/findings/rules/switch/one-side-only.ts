/** A button with pairs of legs that are one inside, wired on one pair only: it switches nothing, or what hangs on the pair is always joined. */
import type { Leg } from '../../../board/layout.ts';
import type { Circuit, ContactSite } from '../../../run/circuit/circuit.ts';
import { FED } from '../../example-benches.ts';
import { toPart, toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

const BENCH = `
  ${FED}
  S1 push-button e40
  R1 resistor b54 -j9 ohms=330
  D1 led a50 a54
  W1 wire a40 +j3`;

export const oneSideOnly = defineRule({
  code: 'switch/one-side-only',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    circuit.contacts.flatMap((site) => {
      const [a, b] = site.legs.map((leg) => sideOf(circuit, site, leg));
      if (!a || !b || a.length < 2) return [];
      const used = [a, b].map((side) => side.filter((leg) => wiresOn(circuit, site, leg)));
      const [wired, idle] = used[0]?.length ? [used[0], b] : [used[1] ?? [], a];
      if (wired.length === 0 || used.every((side) => side.length > 0)) return [];
      return [{ at: [toPart(site.placed), ...wired.map(toPin), ...idle.slice(0, 1).map(toPin)], data: { wired: wired.length } }];
    }),
  bad: { points: 'S1', bench: `${BENCH}\nW2 wire j40 b50` },
  good: { bench: `${BENCH}\nW2 wire j42 b50` },
});

/** The leg of a contact and those of its part that fixed metal joins to it. */
function sideOf(circuit: Circuit, { placed, device }: ContactSite, leg: Leg): Leg[] {
  const bridges = circuit.branches.filter((b) => b.placed === placed && b.device.kind === 'conductance' && b.device !== device);
  return [leg, ...bridges.flatMap(({ legs: [a, b] }) => (a === leg ? [b] : b === leg ? [a] : []))];
}

/** Does this leg's row hold anything beside the part itself? */
function wiresOn(circuit: Circuit, { placed }: ContactSite, leg: Leg): boolean {
  const net = circuit.netOf(leg);
  return net.ends.length > 0 || net.legs.some((l) => l.part.id !== placed.part.id);
}
