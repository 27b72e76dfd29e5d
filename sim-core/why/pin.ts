/** Why a chip's input reads as it does, and what would make it read as needed. */
import type { Leg } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { setEntry } from '../document/changes.ts';
import { countsAsHigh } from '../findings/driven-inputs.ts';
import { toPart, toPin } from '../findings/rule.ts';
import type { ChipSite, ContactSite } from '../run/circuit/sites.ts';
import { feeds } from './contact-feeds.ts';
import { expectedPins } from './expected-address.ts';
import {
  because,
  type CandidateFix,
  type ExplanationQuestion,
  type ExplanationStep,
  explanationStep,
  newPart,
  type Side,
} from './explanation-step.ts';
import { pullFixes, pullsOn, wireFixes } from './missing-joins.ts';
import { whyOpen } from './open-circuit.ts';
import { tieFixes } from './tie-inputs.ts';
import { whyTied } from './tied-pin.ts';

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
    const open = whyOpen(q, net, needed, 'pin');
    const others = [...pullFixes(q, chip, leg), ...wireFixes(q, net, chip, leg)];
    // what nothing switches is tied to a rail
    const fixes = [...tieFixes(q, chip, leg), ...(isFixed(q, chip, leg) ? [...open.fixes, ...others] : [...others, ...open.fixes])];
    return because({ code: 'pin-floats', at, data: { ...data, ohms: reading.ohms, leakage, high } }, { ...open, fixes });
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
  const tied = whyTied(q, net, leg, needed, data);
  if (tied) return tied;
  const open = whyOpen(q, net, needed, 'pin');
  const pulls = pullsOn(q, net).map((p) => toPart(p.branch.placed));
  // a closed contact leads to what else may hold it
  const alone = contactsBeside(q, net).some((c) => scene.closed(c)) ? 0 : 1;
  return because(
    { code: 'pin-pulled', at: [...at, ...pulls], data: { ...data, alone } },
    { ...open, fixes: [...wireFixes(q, net, chip, leg), ...open.fixes] },
  );
}

/** An enable, or an address pin that the table does not use: data sheets write a bar before the name of what is active low. */
function isFixed(q: ExplanationQuestion, chip: ChipSite, leg: Leg): boolean {
  const name = nameOf(chip, leg);
  if (name in (chip.spec.toRead ?? {}) || name.startsWith('/')) return true;
  return (chip.spec.word?.address.includes(name) ?? false) && !expectedPins(q, chip).some((p) => p.leg === leg);
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

/** Contacts with one side on this net. */
function contactsBeside({ scene: { circuit } }: ExplanationQuestion, net: Net): ContactSite[] {
  return circuit.contacts.filter(
    (c) => c.legs.some((l) => circuit.netOf(l) === net) && circuit.netOf(c.legs[0]) !== circuit.netOf(c.legs[1]),
  );
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
