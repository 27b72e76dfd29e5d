/** In which order a bench is wired: power, memory, enables, inputs, outputs, writing, and the chips last, once all has been measured; and what each wire and each part with two legs is for. */
import type { PlanWire } from '../../shared/plan.ts';
import { nameOfPole } from '../../shared/pole-names.ts';
import type { Leg } from '../board/layout.ts';
import { isRailHole } from '../board/tie-points.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Placed } from '../run/circuit/sites.ts';
import type { EndOfWire } from '../text/wiring.ts';

export const SECTIONS = ['power', 'memory', 'enables', 'inputs', 'outputs', 'writing', 'chips'] as const;
export type Section = (typeof SECTIONS)[number];

/** A later section wins where two meet: a data switch's wire to a data pin is for writing. */
const later = (a: Section, b: Section): Section => (SECTIONS.indexOf(a) < SECTIONS.indexOf(b) ? b : a);

export interface Order {
  sectionOfWire(wire: PlanWire): Section;
  sectionOfPart(placed: Placed): Section;
  endOf(wire: PlanWire, end: 'from' | 'to'): EndOfWire;
}

export function orderOf(circuit: Circuit): Order {
  const { layout, contacts, chips, supplies } = circuit;
  const legs = new Map<string, Leg[]>();
  for (const leg of layout.legs) {
    const there = legs.get(leg.strip);
    if (there) there.push(leg);
    else legs.set(leg.strip, [leg]);
  }
  const { placed } = circuit;
  const ends = new Map(layout.ends.map((e) => [`${e.wire.id} ${e.end}`, e]));
  const rails = new Set(supplies.flatMap((s) => [circuit.netOf(s.plus), circuit.netOf(s.minus)]));
  const netOf = (strip: string) => circuit.nets.ofStrip.get(strip);
  const nameOf = (leg: Leg): string => {
    const p = placed.get(leg.part.id);
    return p?.kind.pins(p.params).find((x) => x.pin === leg.pin)?.name ?? leg.pin;
  };
  const contactAt = (leg: Leg) => circuit.contactsById.get(leg.part.id)?.find((c) => c?.legs.some((l) => l.pin === leg.pin));
  const isLed = (p: Placed) => circuit.leds.some((l) => l.placed === p);

  /** what a pin of a memory belongs to */
  function memoryRole(leg: Leg): Section | undefined {
    const site = circuit.chipById.get(leg.part.id);
    const word = site?.spec.word;
    if (!site || !word) return undefined;
    const name = nameOf(leg);
    if (word.address.includes(name)) return 'inputs';
    if (word.data.includes(name)) return 'outputs';
    return name in (site.spec.toRead ?? {}) ? 'enables' : 'memory';
  }

  /** what a switch's pole sets, by the memory pins on either side of it */
  function poleRole(leg: Leg): Section {
    const contact = contactAt(leg);
    const roles = (contact?.legs ?? []).flatMap((l) => {
      const net = circuit.netOf(l);
      return rails.has(net) ? [] : net.legs.map(memoryRole);
    });
    return roles.includes('inputs') ? 'inputs' : 'writing';
  }

  function roleOfStrip(strip: string, besides?: string): Section | undefined {
    let role: Section | undefined;
    for (const leg of legs.get(strip) ?? []) {
      if (leg.part.id === besides) continue;
      const p = placed.get(leg.part.id);
      const chip = chips.some((c) => c.placed === p);
      const here = memoryRole(leg) ?? (chip ? 'outputs' : contactAt(leg) ? poleRole(leg) : p && isLed(p) ? 'outputs' : undefined);
      if (here) role = role ? later(role, here) : here;
    }
    if (role) return role;
    const net = netOf(strip);
    if (!net || rails.has(net)) return undefined;
    const roles = net.legs.filter((l) => l.part.id !== besides).flatMap((l) => memoryRole(l) ?? (contactAt(l) ? poleRole(l) : []));
    const all = roles.reduce<Section | undefined>((a, b) => (a ? later(a, b) : b), undefined);
    // rows between an enable and a part that a hand works are for writing
    return all === 'enables' && net.legs.length > 1 ? 'writing' : all;
  }

  const at = (wire: PlanWire, end: 'from' | 'to') => ends.get(`${wire.id} ${end}`);
  const sectionOf = (strips: readonly string[], besides?: string): Section | undefined =>
    strips.map((s) => roleOfStrip(s, besides)).reduce((a, b) => (a && b ? later(a, b) : (a ?? b)), undefined);

  return {
    sectionOfWire: (wire) =>
      sectionOf([at(wire, 'from'), at(wire, 'to')].flatMap((e) => (e && !(e.hole && isRailHole(e.hole)) ? [e.strip] : []))) ?? 'power',
    sectionOfPart(p) {
      if (chips.some((c) => c.placed === p)) return 'chips';
      if (supplies.some((s) => s.placed === p)) return 'power';
      if (isLed(p)) return 'outputs';
      const contact = contacts.find((c) => c.placed === p);
      if (contact) return poleRole(contact.legs[0]);
      const own = p.legs.filter((l) => !rails.has(circuit.netOf(l)));
      if (own.length === 0)
        return (
          sectionOf(
            p.legs.map((l) => l.strip),
            p.part.id,
          ) ?? 'memory'
        );
      return (
        sectionOf(
          own.map((l) => l.strip),
          p.part.id,
        ) ?? 'outputs'
      );
    },
    endOf(wire, end) {
      const e = at(wire, end);
      if (!e) return { is: 'row' };
      if (e.hole && isRailHole(e.hole)) return { is: 'rail', sign: e.hole.rail.startsWith('+') ? '+' : '-' };
      const there = [...(legs.get(e.strip) ?? [])];
      const pin = there.find((l) => circuit.chipById.has(l.part.id));
      if (pin) return { is: 'pin', part: pin.part.id, pin: pin.pin, name: nameOf(pin) };
      const pole = there.find(contactAt);
      const contact = pole && contactAt(pole);
      if (pole && contact) {
        const of = contacts.filter((c) => c.placed === contact.placed).length;
        const called = nameOfPole(pole.part, contact.pole) ?? lineOf(circuit, contact.legs) ?? pole.part.label;
        return { is: 'pole', part: pole.part.id, pole: contact.pole, poles: of, ...(called === undefined ? {} : { called }) };
      }
      const [leg] = there;
      if (!leg) return { is: 'row' };
      if (!leg.hole) return { is: 'terminal', part: leg.part.id, pin: leg.pin };
      const { label } = leg.part;
      return { is: 'part', part: leg.part.id, ...(label === undefined ? {} : { label }) };
    },
  };
}

/** The wanted table's name for the input that these legs are joined to. */
export function lineOf(circuit: Circuit, legs: readonly Leg[]): string | undefined {
  const nets = new Set(legs.map((l) => circuit.netOf(l)));
  return circuit.plan.wanted?.inputs.find(({ pin }) => {
    const site = circuit.chips.find((c) => pin.startsWith(`${c.placed.part.id}.`));
    const leg = site?.inputs.find((i) => `${site.placed.part.id}.${i.name}` === pin)?.leg;
    return leg !== undefined && nets.has(circuit.netOf(leg));
  })?.name;
}
