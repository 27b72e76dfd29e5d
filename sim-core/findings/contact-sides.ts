/** The two sides of a contact: a leg of it, and the others that fixed metal inside the part joins to that. */
import type { Leg } from '../board/layout.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ContactSite } from '../run/circuit/sites.ts';

/** The side of one of the contact's two legs: itself first. */
export function contactSide(circuit: Circuit, { placed, device }: ContactSite, leg: Leg): Leg[] {
  const bridges = circuit.branches.filter((b) => b.placed === placed && b.device.kind === 'conductance' && b.device !== device);
  return [leg, ...bridges.flatMap(({ legs: [a, b] }) => (a === leg ? [b] : b === leg ? [a] : []))];
}
