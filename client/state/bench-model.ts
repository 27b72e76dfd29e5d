/** What stands on the bench, looked up once from the plan: kinds, legs, nets, contacts, LEDs, and what their owner calls them. */

import type { Plan, PlanPart } from '../../shared/plan.ts';
import { nameOfPole } from '../../shared/pole-names.ts';
import { sameValue } from '../../shared/same-value.ts';
import {
  contentsOfKind,
  findNets,
  type Hole,
  type Layout,
  layOut,
  ledWithin,
  type Nets,
  type Outcome,
  type Params,
  type PartKind,
  type Pin,
  partKind,
  partLookup,
  readParams,
} from '../../sim-core/index.ts';

interface ModelLeg {
  readonly pin: Pin;
  readonly hole?: Hole;
  /** position in Nets.all */
  readonly net: number;
}

/** One pole of a switch or button. */
interface ModelContact {
  readonly pole: number;
  readonly momentary: boolean;
  /** the legs it joins, by pin number */
  readonly a: string;
  readonly b: string;
  /** the wanted table's name for the line it sets */
  readonly name?: string;
}

interface PlacedLed {
  /** 'D3', 'DS1.a' */
  readonly led: string;
  /** 'vent', 'units segment a', 'gauge LED 3' */
  readonly name: string;
  readonly colour: string;
  readonly anode: string;
  readonly cathode: string;
}

/** One part as it stands. Damage is no part of it: it comes and goes with the plan, and nothing is drawn again. */
export interface PlacedPart {
  readonly part: PlanPart;
  readonly kind: PartKind;
  readonly params: Params;
  readonly legs: readonly ModelLeg[];
  readonly contacts: readonly ModelContact[];
  readonly leds: readonly PlacedLed[];
  readonly isChip: boolean;
  /** of a memory: its address and data pins by name, least significant first */
  readonly word?: { readonly address: readonly string[]; readonly data: readonly string[]; readonly forgets?: boolean };
  /** its terminals and voltage if it is a supply */
  readonly supply?: { readonly plus: string; readonly minus: string; readonly volts: number };
}

export interface BenchModel {
  readonly plan: Plan;
  readonly layout: Layout;
  readonly nets: Nets;
  readonly specimens: readonly PlacedPart[];
  readonly specimen: ReadonlyMap<string, PlacedPart>;
  readonly leds: readonly PlacedLed[];
  /** 'U1.20' → net */
  readonly netOfLeg: ReadonlyMap<string, number>;
  /** wire id → net */
  readonly netOfWire: ReadonlyMap<string, number>;
  /** the highest supply voltage: the top of the ramp */
  readonly volts: number;
}

/** The worker has checked the plan already, so a plan that cannot be laid out here is a bug of ours. */
export function makeBenchModel(plan: Plan, before?: BenchModel): BenchModel {
  // meters, hands, memories and damage may change without anything being drawn again
  if (before && isWiredAlike(before.plan, plan)) return { ...before, plan };
  const layout = value(layoutOf(plan));
  const nets = findNets(layout);
  const netOfStrip = (strip: string) => nets.ofStrip.get(strip)?.index ?? -1;
  const netOfLeg = new Map(layout.legs.map((l) => [`${l.part.id}.${l.pin}`, netOfStrip(l.strip)]));
  const holes = new Map<string, Map<string, Hole | undefined>>();
  for (const { part, pin, hole } of layout.legs) holes.set(part.id, (holes.get(part.id) ?? new Map()).set(pin, hole));
  const bare = plan.parts.map((part) => bareSpecimen(part, holes.get(part.id), netOfLeg));
  const specimens = bare.map((s) =>
    s.contacts.length === 0 ? s : { ...s, contacts: s.contacts.map((c) => nameContact(c, s, plan, bare, netOfLeg)) },
  );
  return {
    plan,
    layout,
    nets,
    specimens,
    specimen: new Map(specimens.map((s) => [s.part.id, s])),
    leds: specimens.flatMap((s) => s.leds),
    netOfLeg,
    netOfWire: new Map(layout.ends.map((e) => [e.wire.id, netOfStrip(e.strip)])),
    volts: Math.max(0, ...bare.map((s) => s.supply?.volts ?? 0)) || 5,
  };
}

const layouts = new WeakMap<Plan, Outcome<Layout>>();

/** Where everything of a plan is, or what cannot be where it says; found once for the same plan. */
export function layoutOf(plan: Plan): Outcome<Layout> {
  const layout = layouts.get(plan) ?? layOut(plan, partLookup.shapeOf);
  layouts.set(plan, layout);
  return layout;
}

const isWiredAlike = (a: Plan, b: Plan): boolean =>
  sameValue(besideParts(a), besideParts(b)) && (a.parts === b.parts || sameValue(undamaged(a), undamaged(b)));

/** The rows of the wanted table are not drawn on the bench. */
const besideParts = ({ boards, wires, wanted }: Plan) => [boards, wires, wanted?.inputs, wanted?.outputs];

const undamaged = ({ parts }: Plan) => parts.map(({ damaged: _, ...whole }) => whole);

function value<T>(o: Outcome<T>): T {
  if (!o.ok) throw new Error(`A checked plan cannot be laid out: ${o.failure.says}`);
  return o.value;
}

function kindOf(part: PlanPart): PartKind {
  const kind = partKind(part.kind);
  if (!kind) throw new Error(`A checked plan has the unknown part kind ${part.kind}`);
  return kind;
}

/** What a part is, whatever it stands in. */
type Anatomy = Omit<PlacedPart, 'part' | 'legs'> & { readonly pins: readonly Pin[] };

const known = new WeakMap<PlanPart, Anatomy>();

/** Once for the same line of a plan. */
function anatomyOf(part: PlanPart): Anatomy {
  const before = known.get(part);
  if (before) return before;
  const kind = kindOf(part);
  const params = value(readParams(kind, part));
  const { chip, supply, contacts, leds } = contentsOfKind(kind, params);
  const called = part.label ?? part.id;
  const anatomy: Anatomy = {
    kind,
    params,
    pins: kind.pins(params),
    contacts: contacts.map(({ a, b, pole, contact }) => ({ a, b, pole, momentary: contact.momentary })),
    leds: leds.map(({ anode, cathode, led: { name, colour } }) => ({
      led: name === '' ? part.id : `${part.id}.${name}`,
      name: name === '' ? called : `${called} ${ledWithin(name)}`,
      colour,
      anode,
      cathode,
    })),
    isChip: chip !== undefined,
    ...(chip?.word ? { word: chip.word } : {}),
    ...(supply ? { supply } : {}),
  };
  known.set(part, anatomy);
  return anatomy;
}

function bareSpecimen(
  part: PlanPart,
  holes: ReadonlyMap<string, Hole | undefined> | undefined,
  netOfLeg: ReadonlyMap<string, number>,
): PlacedPart {
  const { pins, ...anatomy } = anatomyOf(part);
  const legs = pins.map((pin): ModelLeg => {
    const hole = holes?.get(pin.pin);
    return { pin, net: netOfLeg.get(`${part.id}.${pin.pin}`) ?? -1, ...(hole ? { hole } : {}) };
  });
  return { part, ...anatomy, legs };
}

/** A pole carries the name of the wanted line that one of its two sides is joined to. */
function nameContact(
  c: ModelContact,
  s: PlacedPart,
  plan: Plan,
  all: readonly PlacedPart[],
  netOfLeg: ReadonlyMap<string, number>,
): ModelContact {
  const own = nameOfPole(s.part, c.pole);
  if (own !== undefined) return { ...c, name: own };
  const sides = [c.a, c.b].map((pin) => netOfLeg.get(`${s.part.id}.${pin}`) ?? -1);
  const line = [...(plan.wanted?.inputs ?? []), ...(plan.wanted?.outputs ?? [])].find(({ pin }) => {
    const net = netOfNamedPin(pin, all, netOfLeg);
    return net !== undefined && sides.includes(net);
  });
  return line ? { ...c, name: line.name } : c;
}

/** 'U1.A3', by the pin's name, to its net. */
function netOfNamedPin(named: string, all: readonly PlacedPart[], netOfLeg: ReadonlyMap<string, number>): number | undefined {
  const dot = named.indexOf('.');
  const s = all.find((x) => x.part.id === named.slice(0, dot));
  const pin = s?.legs.find((l) => l.pin.name === named.slice(dot + 1));
  return s && pin ? netOfLeg.get(`${s.part.id}.${pin.pin.pin}`) : undefined;
}
