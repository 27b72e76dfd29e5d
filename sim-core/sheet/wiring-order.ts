/** In which order a bench is wired: power, memory, enables, inputs, outputs, writing, and the chips last, once all has been measured; and what each wire and each part with two legs is for. */
import type { PlanWire } from '../../shared/plan.ts';
import { nameOfPole } from '../../shared/pole-names.ts';
import type { Leg, WireEnd } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { isRailHole } from '../board/tie-points.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ContactSite, Placed } from '../run/circuit/sites.ts';
import { isButton } from '../run/circuit/switch-settings.ts';
import type { EndOfWire } from '../text/wiring.ts';

const SECTIONS = ['power', 'memory', 'enables', 'inputs', 'outputs', 'writing', 'chips'] as const;
export type Section = (typeof SECTIONS)[number];

/** A later section wins where several meet: a data switch's wire to a data pin is for writing. */
const latest = (roles: readonly (Section | undefined)[]): Section | undefined => SECTIONS.findLast((s) => roles.includes(s));

/** What each wire and each two-legged part of a bench belongs to, by what its strips are joined to. */
export class WiringOrder {
  /** legs by the strip that they are in */
  private readonly legs = new Map<string, Leg[]>();
  private readonly ends: ReadonlyMap<string, WireEnd>;
  private readonly rails: ReadonlySet<Net>;
  private readonly leds: ReadonlySet<Placed>;

  constructor(private readonly circuit: Circuit) {
    const { layout, supplies, leds } = circuit;
    for (const leg of layout.legs) {
      const there = this.legs.get(leg.strip);
      if (there) there.push(leg);
      else this.legs.set(leg.strip, [leg]);
    }
    this.ends = new Map(layout.ends.map((e) => [`${e.wire.id} ${e.end}`, e]));
    this.rails = new Set(supplies.flatMap((s) => [circuit.netOf(s.plus), circuit.netOf(s.minus)]));
    this.leds = new Set(leds.map((l) => l.placed));
  }

  sectionOfWire(wire: PlanWire): Section {
    const ends = [this.at(wire, 'from'), this.at(wire, 'to')];
    return this.sectionOf(ends.flatMap((e) => (e && !(e.hole && isRailHole(e.hole)) ? [e.strip] : []))) ?? 'power';
  }

  /** Does it run from a rail straight to a chip's pin? */
  ties(wire: PlanWire): boolean {
    const ends = [this.endOf(wire, 'from'), this.endOf(wire, 'to')];
    return ends.some((e) => e.is === 'rail') && ends.some((e) => e.is === 'pin');
  }

  sectionOfPart(p: Placed): Section {
    const { chipById, supplies, contacts } = this.circuit;
    if (chipById.has(p.part.id)) return 'chips';
    if (supplies.some((s) => s.placed === p)) return 'power';
    if (this.leds.has(p)) return 'outputs';
    const contact = contacts.find((c) => c.placed === p);
    if (contact) return this.poleRole(contact.legs[0]);
    const own = p.legs.filter((l) => !this.rails.has(this.circuit.netOf(l)));
    const strips = (own.length === 0 ? p.legs : own).map((l) => l.strip);
    return this.sectionOf(strips, p.part.id) ?? (own.length === 0 ? 'memory' : 'outputs');
  }

  /** What a wire's end is to whoever plugs it in. */
  endOf(wire: PlanWire, end: 'from' | 'to'): EndOfWire {
    const e = this.at(wire, end);
    return e ? this.placeOf(e) : { is: 'row' };
  }

  /** What a leg of a part reaches: in its own row, or, if nothing else is there, over the wires of that row. */
  reachedBy(leg: Leg): EndOfWire {
    const there = this.placeOf(leg, leg.part.id);
    if (there.is !== 'row') return there;
    const net = this.circuit.netOf(leg);
    return this.bestOf(net.legs.filter((l) => l.part.id !== leg.part.id)) ?? there;
  }

  private placeOf(e: Pick<WireEnd, 'hole' | 'strip'>, besides?: string): EndOfWire {
    if (e.hole && isRailHole(e.hole)) return { is: 'rail', sign: e.hole.rail.startsWith('+') ? '+' : '-' };
    return this.bestOf((this.legs.get(e.strip) ?? []).filter((l) => l.part.id !== besides)) ?? { is: 'row' };
  }

  /** A chip's pin goes before a pole, that before an LED, that before anything else. */
  private bestOf(legs: readonly Leg[]): EndOfWire | undefined {
    const pin = legs.find((l) => this.circuit.chipById.has(l.part.id));
    if (pin) return { is: 'pin', part: pin.part.id, pin: pin.pin, name: this.nameOf(pin) };
    for (const leg of legs) {
      // a button has two legs to either side of its contact
      const contact = this.contactAt(leg) ?? this.circuit.contactsById.get(leg.part.id)?.find((c) => isButton(c));
      if (contact) return this.poleEnd(contact);
    }
    const isLed = (l: Leg) => this.circuit.placed.get(l.part.id)?.kind.group === 'led';
    const leg = legs.find(isLed) ?? legs[0];
    if (!leg) return undefined;
    if (!leg.hole) return { is: 'terminal', part: leg.part.id, pin: leg.pin };
    const { label } = leg.part;
    const name = this.nameOf(leg);
    const many = (this.circuit.placed.get(leg.part.id)?.legs.length ?? 0) > 2;
    const segment = this.circuit.leds.some((l) => l.id === `${leg.part.id}.${name}`);
    return {
      is: 'part',
      part: leg.part.id,
      ...(many ? { pin: leg.pin } : {}),
      ...(name === leg.pin ? {} : { name }),
      ...(segment ? { segment: true } : {}),
      ...(label === undefined ? {} : { label }),
    };
  }

  private poleEnd({ placed, pole, legs }: ContactSite): EndOfWire {
    const { part } = placed;
    const poles = this.circuit.contacts.filter((c) => c.placed === placed).length;
    const called = nameOfPole(part, pole) ?? lineOf(this.circuit, legs) ?? part.label;
    return { is: 'pole', part: part.id, pole, poles, ...(called === undefined ? {} : { called }) };
  }

  private at(wire: PlanWire, end: 'from' | 'to'): WireEnd | undefined {
    return this.ends.get(`${wire.id} ${end}`);
  }
  nameOf(leg: Leg): string {
    const p = this.circuit.placed.get(leg.part.id);
    return p?.kind.pins(p.params).find((x) => x.pin === leg.pin)?.name ?? leg.pin;
  }
  private contactAt(leg: Leg): ContactSite | undefined {
    return this.circuit.contactsById.get(leg.part.id)?.find((c) => c?.legs.some((l) => l.pin === leg.pin));
  }

  /** what a pin of a memory belongs to */
  private memoryRole(leg: Leg): Section | undefined {
    const spec = this.circuit.chipById.get(leg.part.id)?.spec;
    if (!spec?.word) return undefined;
    const name = this.nameOf(leg);
    if (spec.word.address.includes(name)) return 'inputs';
    if (spec.word.data.includes(name)) return 'outputs';
    return name in (spec.toRead ?? {}) ? 'enables' : 'memory';
  }

  /** what a switch's pole sets, by the memory pins on either side of it */
  private poleRole(leg: Leg): Section {
    const nets = (this.contactAt(leg)?.legs ?? []).map((l) => this.circuit.netOf(l)).filter((net) => !this.rails.has(net));
    return nets.some((net) => net.legs.some((l) => this.memoryRole(l) === 'inputs')) ? 'inputs' : 'writing';
  }

  /** what a leg in the strip itself belongs to */
  private legRole(leg: Leg): Section | undefined {
    const role = this.memoryRole(leg);
    if (role) return role;
    if (this.circuit.chipById.has(leg.part.id)) return 'outputs';
    if (this.contactAt(leg)) return this.poleRole(leg);
    const p = this.circuit.placed.get(leg.part.id);
    return p && this.leds.has(p) ? 'outputs' : undefined;
  }

  private roleOfStrip(strip: string, besides?: string): Section | undefined {
    const others = (legs: readonly Leg[]) => legs.filter((l) => l.part.id !== besides);
    const here = latest(others(this.legs.get(strip) ?? []).map((l) => this.legRole(l)));
    if (here) return here;
    const net = this.circuit.nets.ofStrip.get(strip);
    if (!net || this.rails.has(net)) return undefined;
    const all = latest(others(net.legs).map((l) => this.memoryRole(l) ?? (this.contactAt(l) && this.poleRole(l))));
    // rows between an enable and a part that a hand works are for writing
    return all === 'enables' && net.legs.length > 1 ? 'writing' : all;
  }

  private sectionOf(strips: readonly string[], besides?: string): Section | undefined {
    return latest(strips.map((s) => this.roleOfStrip(s, besides)));
  }
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
