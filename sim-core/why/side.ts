/** Why one side of a lamp is not high, or not low: what drives it, what holds it the other way, or where its way ends. */
import type { Net } from '../bench/nets.ts';
import { METAL, nearest, reachOf } from '../findings/reach.ts';
import { toPart, toPin } from '../findings/refs.ts';
import type { LampSite } from '../run/circuit.ts';
import { type Account, account, type Question, type Side } from './account.ts';
import { whyOpen } from './open.ts';
import { whyOutput } from './output.ts';
import { contactsTo, setPole } from './pin.ts';

/** A side that is this near to where it should be [V] is not what keeps the lamp dark. */
const NEAR_ENOUGH = 1.2;

/** No reasons if the side is as it should be. */
export function whySide(q: Question, net: Net, side: Side, site: LampSite): Account {
  const { scene } = q;
  const { circuit } = scene;
  const reach = reachOf(circuit);
  const [ends, others] = side === 'high' ? [reach.plus, reach.minus] : [reach.minus, reach.plus];
  const reached = reach.from(net.index, 'no lamps', (c) => !scene.closed(c));
  const output = nearest(reached, reach.outputs);
  const end = nearest(reached, ends);
  const other = nearest(reached, others);
  const volts = scene.at(net.index);
  if (Math.abs(volts - (side === 'high' ? scene.volts : 0)) < NEAR_ENOUGH && (end || output)) return account([]);
  if (output && (!end || output.ohms <= end.ohms))
    for (const chip of circuit.chips)
      for (const [i, o] of chip.outputs.entries()) if (circuit.netOf(o.leg).index === output.net) return whyOutput(q, chip, i, side);
  if (!end) {
    const open = contactsTo(q, reached.keys(), ends).find((c) => !scene.closed(c));
    if (!open) return whyOpen(q, net, side, 'lamp', site);
    const mends = open.contact.momentary ? [] : [setPole(q, open, true)];
    return account([{ code: 'switch-open', at: [toPart(open.placed)], data: { pole: open.pole + 1, side } }], mends);
  }
  if (other && other.ohms < end.ohms) return heldOtherWay(q, net, reached, others, side);
  const [leg = site.anode] = net.legs;
  const code = end.ohms < METAL ? 'no-difference' : 'way-too-thin';
  return account([{ code, at: [toPin(leg)], data: { volts, side, ohms: end.ohms } }]);
}

/** A closed contact, or something else, joins this side to the wrong end of the supply better than its own way does. */
function heldOtherWay(q: Question, net: Net, reached: ReadonlyMap<number, number>, others: ReadonlySet<number>, side: Side): Account {
  const contact = contactsTo(q, reached.keys(), others).find((c) => q.scene.closed(c));
  const [leg] = net.legs;
  const data = { side, volts: q.scene.at(net.index) };
  if (contact)
    return account(
      [{ code: 'bypassed', at: [toPart(contact.placed)], data: { ...data, pole: contact.pole + 1 } }],
      [setPole(q, contact, false)],
    );
  return account([{ code: 'held-other-way', at: leg ? [toPin(leg)] : [], data }]);
}
