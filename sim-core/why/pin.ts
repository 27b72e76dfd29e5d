/** Why a chip's input reads as it does, and what would make it read as needed. */
import type { Leg } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { GROUND } from '../devices/network.ts';
import { setEntry } from '../document/changes.ts';
import { countsAsHigh } from '../findings/driven-inputs.ts';
import { METAL, reachOf } from '../findings/resistive-reach.ts';
import { toPart, toPin, toWire } from '../findings/rule.ts';
import type { ChipSite, ContactSite } from '../run/circuit/sites.ts';
import type { Reason } from './answer.ts';
import {
  because,
  type CandidateFix,
  type ExplanationQuestion,
  type ExplanationStep,
  explanationStep,
  newPart,
  type Side,
} from './explanation-step.ts';
import { freeRailHole } from './nearby-holes.ts';
import { moveEnd, whyOpen } from './open-circuit.ts';

/** needed: the level it should have. */
export function whyPin(q: ExplanationQuestion, chip: ChipSite, leg: Leg, needed: Side): ExplanationStep {
  const { scene } = q;
  const { circuit } = scene;
  const net = circuit.netOf(leg);
  const pin = scene.chip(chip.placed.part.id)?.pins.find((p) => p.pin === leg.pin);
  const volts = pin?.volts ?? 0;
  const reading = scene.readings.nets[net.index];
  const data = { volts, needed, name: nameOf(chip, leg) };
  const at = [toPin(leg)];
  const burnt = whyBurnt(q, chip, leg);
  if (burnt) return burnt;
  if (reading?.drive === 'floating') {
    const input = chip.inputs.find((i) => i.leg === leg);
    const { leakage } = input?.figures ?? chip.spec.input;
    const high = input && pin && countsAsHigh(input, pin) ? 1 : 0;
    return because({ code: 'pin-floats', at, data: { ...data, ohms: reading.ohms, leakage, high } }, whyOpen(q, net, needed, 'pin'));
  }
  const contact = contactsBeside(q, net).find((c) =>
    (['high', 'low'] as const).some((side) => feeds(q, c, net, side) && scene.closed(c) !== (needed === side)),
  );
  if (contact) {
    const closed = scene.closed(contact);
    return explanationStep(
      [{ code: 'pin-by-switch', at: [...at, toPart(contact.placed)], data: { ...data, pole: contact.pole + 1, closed: closed ? 1 : 0 } }],
      [setPole(q, contact, !closed)],
    );
  }
  const tied = tiedTo(q, net, leg);
  if (tied)
    return explanationStep(
      [{ ...tied.reason, at: [...at, ...tied.reason.at], data: { ...data, ...tied.reason.data } }],
      tied.fixes(needed),
    );
  // a closed contact leads to what else may hold it
  const alone = contactsBeside(q, net).some((c) => scene.closed(c)) ? 0 : 1;
  return because({ code: 'pin-pulled', at: [...at, ...pulledBy(q, net)], data: { ...data, alone } }, whyOpen(q, net, needed, 'pin'));
}

/** A pin that overload has burnt open: only another chip helps. */
export function whyBurnt(q: ExplanationQuestion, chip: ChipSite, leg: Leg): ExplanationStep | undefined {
  const { part } = chip.placed;
  if (!part.damaged || !chip.burnt.has(nameOf(chip, leg))) return undefined;
  const { by, measured, limit } = part.damaged;
  return explanationStep(
    [{ code: 'pin-damaged', at: [toPin(leg), toPart(chip.placed)], data: { by, measured, limit } }],
    [newPart(q, part)],
  );
}

const nameOf = (chip: ChipSite, leg: Leg): string =>
  chip.placed.kind.pins(chip.placed.params).find((p) => p.pin === leg.pin)?.name ?? leg.pin;

/** Contacts between nets in reach and something that is joined to one of these ends when they close. */
export function contactsTo(q: ExplanationQuestion, reached: Iterable<number>, ends: ReadonlySet<number>): ContactSite[] {
  const { circuit } = q.scene;
  const here = new Set(reached);
  const side = ends === reachOf(circuit).plus ? 'high' : 'low';
  return circuit.contacts.filter((c) => c.legs.some((l) => here.has(circuit.netOf(l).index) && feeds(q, c, circuit.netOf(l), side)));
}

/** Contacts with one side on this net. */
function contactsBeside({ scene: { circuit } }: ExplanationQuestion, net: Net): ContactSite[] {
  return circuit.contacts.filter(
    (c) => c.legs.some((l) => circuit.netOf(l) === net) && circuit.netOf(c.legs[0]) !== circuit.netOf(c.legs[1]),
  );
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

export function setPole(q: ExplanationQuestion, contact: ContactSite, closed: boolean): CandidateFix {
  const id = contact.placed.part.id;
  const before = q.scene.readings.switches[id];
  const after = Array.from({ length: Math.max(before?.length ?? 0, contact.pole + 1) }, (_, k) =>
    k === contact.pole ? closed : (before?.[k] ?? false),
  );
  return {
    code: 'set-switch',
    at: [toPart(contact.placed)],
    data: { pole: contact.pole + 1, closed: closed ? 1 : 0 },
    change: setEntry(q.sim.plan(), 'switches', id, after),
  };
}

/** The net is a supply's own: which wire brings the pin there. */
function tiedTo(q: ExplanationQuestion, net: Net, leg: Leg): { reason: Reason; fixes: (needed: Side) => CandidateFix[] } | undefined {
  const { circuit } = q.scene;
  const reach = reachOf(circuit);
  const rail = reach.plus.has(net.index)
    ? 'high'
    : reach.minus.has(net.index) || circuit.nodeOfNet[net.index] === GROUND
      ? 'low'
      : undefined;
  if (!rail) return undefined;
  const here = circuit.layout.ends.filter((e) => e.strip === leg.strip);
  const wires = here.map((e) => e.wire.id);
  return {
    reason: { code: 'pin-tied', at: wires.map(toWire), data: { rail } },
    fixes: (needed) =>
      here.flatMap(({ wire, end }) => {
        const other = circuit.layout.ends.find((e) => e.wire === wire && e.end !== end);
        return [...(needed === 'high' ? reach.plus : reach.minus)].flatMap((n) => {
          const hole = freeRailHole(circuit, n, leg.strip);
          return other && hole ? [moveEnd(other, hole)] : [];
        });
      }),
  };
}

/** Resistors between this net and a supply. */
function pulledBy({ scene: { circuit } }: ExplanationQuestion, net: Net) {
  const ends = new Set([...reachOf(circuit).plus, ...reachOf(circuit).minus]);
  return circuit.branches
    .filter((b) => b.placed.kind.group === 'passive' && b.device.kind === 'conductance')
    .filter((b) => b.legs.some((l) => circuit.netOf(l) === net) && b.legs.some((l) => ends.has(circuit.netOf(l).index)))
    .map((b) => toPart(b.placed));
}
