/** A pin whose net is a supply's own: the wires that bring it there, the one at the rail first, and what moving each would do. */

import type { PlanWire } from '../../shared/plan.ts';
import type { Leg } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { GROUND } from '../devices/network.ts';
import { reachOf } from '../findings/resistive-reach.ts';
import { toPin, toWire } from '../findings/rule.ts';
import type { Reason } from './answer.ts';
import { type ExplanationQuestion, type ExplanationStep, explanationStep, type Side } from './explanation-step.ts';
import { freeRailHole, isRail } from './nearby-holes.ts';
import { moveEnd } from './open-circuit.ts';

/** undefined: no supply's own metal holds it. data: what the step says beside the rail. */
export function whyTied(
  q: ExplanationQuestion,
  net: Net,
  leg: Leg,
  needed: Side,
  data: Readonly<Record<string, number | string>>,
): ExplanationStep | undefined {
  const { circuit } = q.scene;
  const reach = reachOf(circuit);
  const isLow = reach.minus.has(net.index) || circuit.nodeOfNet[net.index] === GROUND;
  const rail = reach.plus.has(net.index) ? 'high' : isLow ? 'low' : undefined;
  if (!rail) return undefined;
  const tied = (wire: PlanWire | undefined): Reason => ({
    code: 'pin-tied',
    at: [toPin(leg), ...(wire ? [toWire(wire.id)] : [])],
    data: { ...data, rail },
  });
  const wrongRail = (wire: PlanWire): Reason => ({ code: 'wire-at-other-rail', at: [toWire(wire.id), toPin(leg)], data: { rail } });
  const way = wayToRail(q, leg);
  const ends = [...(needed === 'high' ? reach.plus : reach.minus)];
  const fixes = way.flatMap(({ wire, strip }) => {
    const end = circuit.layout.ends.find((e) => e.wire === wire && e.strip === strip);
    const holes = ends.flatMap((n) => freeRailHole(circuit, n, strip) ?? []);
    return end ? holes.map((hole) => ({ ...moveEnd(end, hole), ...(q.wants ? { claims: wrongRail(wire) } : {}) })) : [];
  });
  return explanationStep([tied(way[0]?.wire)], fixes);
}

interface Link {
  readonly wire: PlanWire;
  /** where it ends on the side away from the pin */
  readonly strip: string;
}

/** The wires from a rail, or a supply's terminal, to the leg's own row, by the fewest; the one at the rail first. */
function wayToRail({ scene: { circuit } }: ExplanationQuestion, leg: Leg): readonly Link[] {
  const { ends } = circuit.layout;
  const back = new Map<string, Link & { readonly from: string }>();
  const waiting = [leg.strip];
  const seen = new Set(waiting);
  for (let here = waiting.shift(); here !== undefined; here = waiting.shift()) {
    if (here !== leg.strip && (isRail(here) || !here.includes('/'))) {
      const way: Link[] = [];
      for (let at = here; at !== leg.strip; ) {
        const link = back.get(at);
        if (!link) break;
        way.push(link);
        at = link.from;
      }
      return way;
    }
    for (const e of ends.filter((x) => x.strip === here)) {
      const far = ends.find((x) => x.wire === e.wire && x.end !== e.end);
      if (!far || seen.has(far.strip)) continue;
      seen.add(far.strip);
      back.set(far.strip, { wire: e.wire, strip: far.strip, from: here });
      waiting.push(far.strip);
    }
  }
  return [];
}
