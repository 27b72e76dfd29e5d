/** Why one side of an LED is not high, or not low: what drives it, what holds it the other way, or where its way ends. */
import type { Net } from '../board/nets.ts';
import { METAL, nearest, reachOf } from '../findings/resistive-reach.ts';
import { toPart, toPin } from '../findings/rule.ts';
import type { LedSite } from '../run/circuit/sites.ts';
import { contactsTo } from './contact-feeds.ts';
import { type ExplanationQuestion, type ExplanationStep, explanationStep, type Side } from './explanation-step.ts';
import { whyOpen } from './open-circuit.ts';
import { whyOutput } from './output.ts';
import { setPole } from './pin.ts';

/** A side that is this near to where it should be [V] is not what keeps the LED dark. */
const NEAR_ENOUGH = 1.2;

/** No reasons if the side is as it should be. */
export function whyTerminal(q: ExplanationQuestion, net: Net, side: Side, site: LedSite): ExplanationStep {
  const { scene } = q;
  const { circuit } = scene;
  const reach = reachOf(circuit);
  const [ends, others] = side === 'high' ? [reach.plus, reach.minus] : [reach.minus, reach.plus];
  const reached = reach.from(net.index, 'no LEDs', (c) => !scene.closed(c));
  const output = nearest(reached, reach.outputs);
  const end = nearest(reached, ends);
  const other = nearest(reached, others);
  const volts = scene.at(net.index);
  if (Math.abs(volts - (side === 'high' ? scene.volts : 0)) < NEAR_ENOUGH && (end || output)) return explanationStep([]);
  if (output && (!end || output.ohms <= end.ohms))
    for (const chip of circuit.chips)
      for (const [i, o] of chip.outputs.entries()) if (circuit.netOf(o.leg).index === output.net) return whyOutput(q, chip, i, side);
  if (!end) {
    const open = contactsTo(q, reached.keys(), ends).find((c) => !scene.closed(c));
    if (!open) return whyOpen(q, net, side, 'led', site);
    const fixes = open.contact.momentary ? [] : [setPole(q, open, true)];
    return explanationStep([{ code: 'switch-open', at: [toPart(open.placed)], data: { pole: open.pole + 1, side } }], fixes);
  }
  if (other && other.ohms < end.ohms) return pulledToOtherRail(q, net, reached, others, side);
  const [leg = site.anode] = net.legs;
  const code = end.ohms < METAL ? 'no-voltage-difference' : 'path-resistance-high';
  return explanationStep([{ code, at: [toPin(leg)], data: { volts, side, ohms: end.ohms } }]);
}

/** A closed contact, or something else, joins this side to the wrong end of the supply better than its own way does. */
function pulledToOtherRail(
  q: ExplanationQuestion,
  net: Net,
  reached: ReadonlyMap<number, number>,
  others: ReadonlySet<number>,
  side: Side,
): ExplanationStep {
  const contact = contactsTo(q, reached.keys(), others).find((c) => q.scene.closed(c));
  const [leg] = net.legs;
  const data = { side, volts: q.scene.at(net.index) };
  if (contact)
    return explanationStep(
      [{ code: 'bypassed', at: [toPart(contact.placed)], data: { ...data, pole: contact.pole + 1 } }],
      [setPole(q, contact, false)],
    );
  return explanationStep([{ code: 'pulled-to-other-rail', at: leg ? [toPin(leg)] : [], data }]);
}
