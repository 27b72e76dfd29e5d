/** What stands on the bench, looked up once from the plan: kinds, legs, nets, contacts, lamps, and what their owner calls them. */
import type { Plan, PlanPart } from '../shared/plan.ts';
import {
  findNets,
  type Hole,
  kinds,
  type Layout,
  lampWithin,
  layOut,
  type Nets,
  type Outcome,
  type Params,
  type PartKind,
  type Pin,
  partKind,
  readParams,
} from './core.ts';

interface StandingLeg {
  readonly pin: Pin;
  readonly hole?: Hole;
  /** position in Nets.all */
  readonly net: number;
}

/** One pole of a switch or button. */
interface StandingContact {
  readonly pole: number;
  readonly momentary: boolean;
  /** the legs it joins, by pin number */
  readonly a: string;
  readonly b: string;
  /** the wanted table's name for the line it sets */
  readonly name?: string;
}

interface StandingLamp {
  /** 'D3', 'DS1.a' */
  readonly lamp: string;
  /** 'vent', 'units segment a', 'gauge lamp 3' */
  readonly name: string;
  readonly colour: string;
  readonly anode: string;
  readonly cathode: string;
  readonly mostAmps: number;
}

/** One part as it stands. Damage is no part of it: it comes and goes with the plan, and nothing is drawn anew. */
export interface Specimen {
  readonly part: PlanPart;
  readonly kind: PartKind;
  readonly params: Params;
  readonly legs: readonly StandingLeg[];
  readonly contacts: readonly StandingContact[];
  readonly lamps: readonly StandingLamp[];
  readonly isChip: boolean;
  /** of a memory: its address and data pins by name, least significant first */
  readonly word?: { readonly address: readonly string[]; readonly data: readonly string[] };
  /** its terminals and voltage if it is a supply */
  readonly supply?: { readonly plus: string; readonly minus: string; readonly volts: number };
}

export interface Standing {
  readonly plan: Plan;
  readonly layout: Layout;
  readonly nets: Nets;
  readonly specimens: readonly Specimen[];
  readonly specimen: ReadonlyMap<string, Specimen>;
  readonly lamps: readonly StandingLamp[];
  /** 'U1.20' → net */
  readonly netOfLeg: ReadonlyMap<string, number>;
  /** lead id → net */
  readonly netOfLead: ReadonlyMap<string, number>;
  /** the highest supply voltage: the top of the ramp */
  readonly volts: number;
}

/** The worker has checked the plan already, so a plan that cannot be laid out here is a bug of ours. */
export function stand(plan: Plan, before?: Standing): Standing {
  // meters, hands, memories and damage may change without anything being drawn anew
  if (before && wiring(before.plan) === wiring(plan)) return { ...before, plan };
  const layout = value(layOut(plan, kinds.shapeOf));
  const nets = findNets(layout);
  const netOfStrip = (strip: string) => nets.ofStrip.get(strip)?.index ?? -1;
  const netOfLeg = new Map(layout.legs.map((l) => [`${l.part.id}.${l.pin}`, netOfStrip(l.strip)]));
  const bare = plan.parts.map((part) => bareSpecimen(part, layout, netOfLeg));
  const specimens = bare.map((s) => ({ ...s, contacts: s.contacts.map((c) => nameContact(c, s, plan, bare, netOfLeg)) }));
  return {
    plan,
    layout,
    nets,
    specimens,
    specimen: new Map(specimens.map((s) => [s.part.id, s])),
    lamps: specimens.flatMap((s) => s.lamps),
    netOfLeg,
    netOfLead: new Map(layout.ends.map((e) => [e.lead.id, netOfStrip(e.strip)])),
    volts: Math.max(0, ...bare.map((s) => s.supply?.volts ?? 0)) || 5,
  };
}

const wiring = ({ boards, parts, leads, wanted }: Plan): string =>
  JSON.stringify([boards, parts.map(({ damaged: _, ...whole }) => whole), leads, wanted]);

function value<T>(o: Outcome<T>): T {
  if (!o.ok) throw new Error(`A plan that was checked does not stand: ${o.failure.says}`);
  return o.value;
}

function kindOf(part: PlanPart): PartKind {
  const kind = partKind(part.kind);
  if (!kind) throw new Error(`A plan that was checked names the part kind ${part.kind}`);
  return kind;
}

/** A part asked to wire itself to a listener that only takes notes. */
function bareSpecimen(part: PlanPart, layout: Layout, netOfLeg: ReadonlyMap<string, number>): Specimen {
  const kind = kindOf(part);
  const params = value(readParams(kind, part));
  const contacts: StandingContact[] = [];
  const lamps: StandingLamp[] = [];
  let isChip = false;
  let supply: Specimen['supply'];
  let word: Specimen['word'];
  const called = part.label ?? part.id;
  kind.wire(
    {
      conductor() {},
      capacitor() {},
      junction(anode, cathode, _law, lamp) {
        if (!lamp) return;
        const name = lamp.name === '' ? called : `${called} ${lampWithin(lamp.name)}`;
        const id = lamp.name === '' ? part.id : `${part.id}.${lamp.name}`;
        lamps.push({ lamp: id, name, colour: lamp.colour, anode, cathode, mostAmps: lamp.mostCurrent.value });
      },
      contact: (a, b, pole, c) => void contacts.push({ a, b, pole, momentary: c.momentary }),
      supply(plus, minus, s) {
        supply = { plus, minus, volts: s.volts };
      },
      transistor() {},
      chip(spec) {
        isChip = true;
        word = spec.word;
      },
    },
    params,
  );
  const holes = new Map(layout.legs.filter((l) => l.part.id === part.id).map((l) => [l.pin, l.hole]));
  const legs = kind.pins(params).map((pin): StandingLeg => {
    const hole = holes.get(pin.pin);
    return { pin, net: netOfLeg.get(`${part.id}.${pin.pin}`) ?? -1, ...(hole ? { hole } : {}) };
  });
  return { part, kind, params, legs, contacts, lamps, isChip, ...(word ? { word } : {}), ...(supply ? { supply } : {}) };
}

/** A pole carries the name of the wanted line that one of its two sides is joined to. */
function nameContact(
  c: StandingContact,
  s: Specimen,
  plan: Plan,
  all: readonly Specimen[],
  netOfLeg: ReadonlyMap<string, number>,
): StandingContact {
  const sides = [c.a, c.b].map((pin) => netOfLeg.get(`${s.part.id}.${pin}`) ?? -1);
  const line = [...(plan.wanted?.inputs ?? []), ...(plan.wanted?.outputs ?? [])].find(({ pin }) => {
    const net = netOfNamedPin(pin, all, netOfLeg);
    return net !== undefined && sides.includes(net);
  });
  return line ? { ...c, name: line.name } : c;
}

/** 'U1.A3', by the pin's name, to its net. */
function netOfNamedPin(named: string, all: readonly Specimen[], netOfLeg: ReadonlyMap<string, number>): number | undefined {
  const dot = named.indexOf('.');
  const s = all.find((x) => x.part.id === named.slice(0, dot));
  const pin = s?.legs.find((l) => l.pin.name === named.slice(dot + 1));
  return s && pin ? netOfLeg.get(`${s.part.id}.${pin.pin.pin}`) : undefined;
}
