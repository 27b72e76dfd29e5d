/** Which side of a supply a contact joins a net to when it closes. */
import type { Net } from '../board/nets.ts';
import { METAL, reachOf } from '../findings/resistive-reach.ts';
import type { ContactSite } from '../run/circuit/sites.ts';
import type { ExplanationQuestion, Side } from './explanation-step.ts';

/** Contacts between nets in reach and something that is joined to one of these ends when they close. */
export function contactsTo(q: ExplanationQuestion, reached: Iterable<number>, ends: ReadonlySet<number>): ContactSite[] {
  const { circuit } = q.scene;
  const here = new Set(reached);
  const side = ends === reachOf(circuit).plus ? 'high' : 'low';
  return circuit.contacts.filter((c) => c.legs.some((l) => here.has(circuit.netOf(l).index) && feeds(q, c, circuit.netOf(l), side)));
}

/** Does closing this contact join the net to the supply's plus (high) or minus (low)? */
export function feeds({ scene: { circuit } }: ExplanationQuestion, contact: ContactSite, net: Net, side: Side): boolean {
  const [a, b] = contact.legs.map((l) => circuit.netOf(l));
  const far = a === net ? b : a;
  if (!far) return false;
  const reach = reachOf(circuit);
  const ends = side === 'high' ? reach.plus : reach.minus;
  if (reach.plus.has(far.index) || reach.minus.has(far.index)) return ends.has(far.index);
  return [...reach.from(far.index, 'no LEDs', (c) => c === contact)].some(([n, ohms]) => ohms < METAL && ends.has(n));
}
