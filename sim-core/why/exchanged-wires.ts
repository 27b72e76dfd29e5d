/** Data wires that reach each other's pins: which output each wanted LED really shows, and the one act that moves the wires' ends where they belong. */
import type { Leg } from '../board/layout.ts';
import { nearest, reachOf } from '../findings/resistive-reach.ts';
import { toWire } from '../findings/rule.ts';
import { type Misplaced, movedEnds } from '../fixes/move-ends.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import type { CandidateFix, ExplanationQuestion } from './explanation-step.ts';
import { intentionOf } from './intention.ts';

/** Empty where it is no exchange of wires, or where more than a wire stands in one of the rows. */
export function exchanged(q: ExplanationQuestion): CandidateFix[] {
  const { circuit } = q.scene;
  const intention = intentionOf(q);
  if (!intention) return [];
  const pairs = [...intention.outputs].flatMap(([led, k]): Misplaced[] => {
    const pin = intention.wanted.outputs[k]?.pin ?? '';
    const meant = circuit.chipById.get(pin.slice(0, pin.indexOf('.')))?.outputs.find((o) => o.name === pin.slice(pin.indexOf('.') + 1));
    const is = sourceOf(q, led);
    return meant && is && meant.leg !== is ? [{ is, meant: meant.leg }] : [];
  });
  const moved = movedEnds(circuit, pairs);
  if (!moved) return [];
  const at = moved.wires.map(toWire);
  const claims = { code: 'wires-exchanged', at, data: { wires: at.length } };
  return [{ code: 'move-wires', at, data: { wires: at.length }, change: moved.change, claims }];
}

/** The memory's output that an LED shows, through whatever passes it on. */
function sourceOf({ scene }: ExplanationQuestion, led: string): Leg | undefined {
  const { circuit } = scene;
  const site = circuit.leds.find((l) => l.id === led);
  const reach = reachOf(circuit);
  for (const leg of site ? [site.anode, site.cathode] : []) {
    const near = nearest(
      reach.from(circuit.netOf(leg).index, 'no LEDs', (c) => !scene.closed(c)),
      reach.outputs,
    );
    const found = near && behind(circuit.chips, near.net, (l) => circuit.netOf(l).index, 0);
    if (found) return found;
  }
  return undefined;
}

/** Chips beyond so many between memory and LED are not followed. */
const DEEPEST = 4;

/** Through chips each of whose outputs one input alone moves. */
function behind(chips: readonly ChipSite[], net: number, netOf: (leg: Leg) => number, depth: number): Leg | undefined {
  for (const chip of chips)
    for (const [i, o] of chip.outputs.entries()) {
      if (netOf(o.leg) !== net) continue;
      if (chip.spec.word) return o.leg;
      const data = chip.inputs.filter(({ name }, k) => chip.spec.moves?.[k]?.includes(i) && !name.startsWith('/'));
      const [only] = data;
      if (only && data.length === 1 && depth < DEEPEST) return behind(chips, netOf(only.leg), netOf, depth + 1);
    }
  return undefined;
}
