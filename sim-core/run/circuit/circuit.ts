/** From a plan to a circuit: nets become nodes, parts become primitives, and every LED, contact, chip and supply is known by its place in it. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { Plan, PlanMeter, PlanPart } from '../../../shared/plan.ts';
import { type Layout, type Leg, layOut } from '../../board/layout.ts';
import { findNets, type Net, type Nets } from '../../board/nets.ts';
import type { Channel, Junction } from '../../devices/device-models.ts';
import { type Device, GROUND, Network, type Node } from '../../devices/network.ts';
import { partKind } from '../../parts/catalogue.ts';
import { NOTHING } from '../../parts/figures/channels.ts';
import { shapeOf } from '../../parts/footprint-index.ts';
import {
  type ChipSpec,
  type Contact,
  type InputFigures,
  type Led,
  type Params,
  type PartKind,
  readParams,
  type Wiring,
} from '../../parts/part.ts';
import { type Interconnect, layInterconnect } from './interconnect.ts';
import { overriddenParams, overriddenWiring, type PartOverrides } from './part-overrides.ts';
import { Partition } from './partition.ts';

/** A part on this bench: the plan's line, its kind, its completed figures. */
export interface Placed {
  readonly part: PlanPart;
  readonly kind: PartKind;
  readonly params: Params;
  readonly legs: readonly Leg[];
}

export interface LedSite {
  /** 'D3', or 'DS1.a' */
  readonly id: string;
  readonly placed: Placed;
  readonly led: Led;
  readonly junction: Junction;
  readonly device: Device;
  readonly anode: Leg;
  readonly cathode: Leg;
}
export interface ContactSite {
  readonly placed: Placed;
  readonly pole: number;
  readonly contact: Contact;
  readonly device: Device;
  readonly legs: readonly [Leg, Leg];
}
export interface SupplySite {
  readonly placed: Placed;
  readonly device: Device;
  readonly plus: Leg;
  readonly minus: Leg;
}
export interface ChipPin {
  readonly name: string;
  readonly leg: Leg;
  readonly node: Node;
}
export interface ChipInput extends ChipPin {
  readonly figures: InputFigures;
  /** the node that its thresholds are parts of, if they are */
  readonly of?: Node;
}
export interface ChipSite {
  readonly placed: Placed;
  readonly spec: ChipSpec;
  readonly inputs: readonly ChipInput[];
  readonly outputs: readonly (ChipPin & { readonly device: Device })[];
  readonly supply: ChipPin;
  readonly ground: ChipPin;
  readonly drain: Device;
  /** names of pins that overload has burnt: their bond is open, and what the gate behind them reads nobody can tell */
  readonly burnt: ReadonlySet<string>;
  /** of ChipSpec.marks, in its order */
  readonly marks: readonly ChipPin[];
}
/** One primitive as seen from the legs that it joins; its current flows from the first to the second. */
export interface Branch {
  readonly placed: Placed;
  readonly device: Device;
  readonly legs: readonly [Leg, Leg];
  /** of an output: the leg that takes the second one's place while it pulls high */
  readonly whenHigh?: Leg;
}

export interface Circuit {
  readonly plan: Plan;
  readonly layout: Layout;
  readonly nets: Nets;
  readonly placed: ReadonlyMap<string, Placed>;
  readonly network: Network;
  readonly netOf: (leg: Leg) => Net;
  readonly interconnect: Interconnect;
  readonly nodeOf: (leg: Leg) => Node;
  /** net index → the node that stands for it; the only one unless wires and rails have resistance */
  readonly nodeOfNet: readonly Node[];
  /** node → net index */
  readonly netOfNode: readonly number[];
  /** wires, and stretches of rails, that have resistance */
  readonly wires: readonly Device[];
  readonly leds: readonly LedSite[];
  readonly contacts: readonly ContactSite[];
  readonly supplies: readonly SupplySite[];
  readonly chips: readonly ChipSite[];
  /** by part */
  readonly chipById: ReadonlyMap<string, ChipSite>;
  readonly supplyById: ReadonlyMap<string, SupplySite>;
  /** by part, then by pole */
  readonly contactsById: ReadonlyMap<string, readonly ContactSite[]>;
  readonly branches: readonly Branch[];
  readonly partition: Partition;
}

/** What a voltmeter loads the bench with [S]: 10 MΩ, common practice, no source. */
const METER = 1e-7;

/** Builds the circuit, or says what on the plan cannot be. `drive` chooses the curve of the outputs; `specimens` are the parts that differ from what the plan says. */
export function buildCircuit(
  plan: Plan,
  drive: 'typical' | 'guaranteed' = plan.outputs ?? 'typical',
  specimens?: PartOverrides,
): Outcome<Circuit> {
  const layout = layOut(plan, shapeOf);
  if (!layout.ok) return layout;
  const nets = findNets(layout.value);
  const netOf = (leg: Leg): Net => nets.ofStrip.get(leg.strip) as Net;

  const legsOf = groupLegs(layout.value);
  const placed = new Map<string, Placed>();
  for (const part of plan.parts) {
    const kind = partKind(part.kind);
    const params = kind && readParams(kind, part);
    if (!kind || !params?.ok) throw new Error(`${part.id} was laid out without a shape`);
    placed.set(part.id, { part, kind, params: overriddenParams(params.value, specimens?.get(part.id)), legs: legsOf.get(part.id) ?? [] });
  }

  // nodes and primitives are numbered by names, not by their order in the file, so that no order changes a bit of any result
  const byName = [...placed.values()].sort((a, b) => compare(a.part.id, b.part.id));
  const metal = layInterconnect(layout.value, nets, terminalsOf(byName), plan.wiring === 'real');
  const { netOfNode, nodeOfNet, nodeAt: nodeOf } = metal;
  const network = new Network(netOfNode.length);
  const builder = makeBuilder(network, drive, nodeOf);
  for (const p of byName) {
    const wiring = overriddenWiring(builder.wiringFor(p), specimens?.get(p.part.id));
    if (p.part.damaged && !p.part.damaged.pins) p.kind.wireDamaged?.(wiring, p.params);
    else p.kind.connect(wiring, p.params);
  }
  for (const meter of [...plan.meters].sort((a, b) => compare(a.id, b.id))) {
    const tips = meterNodes(meter, metal);
    if (tips) network.addConductance(...tips, METER);
  }
  const wires = metal.wires.map(({ a, b, ohms }) => network.addConductance(a, b, 1 / ohms));
  const ids = indexSites(builder.sites);
  const contents = checkContents(plan, ids.chipById);
  if (!contents.ok) return contents;
  network.seal();
  const { supplies, branches } = builder.sites;
  const blocks = new Partition(
    network,
    // all of a rail is stiff, however long it is
    new Set(nodesOn(netOfNode, new Set(supplies.flatMap((s) => [netOf(s.plus).index, netOf(s.minus).index])))),
    branches.map((b) => b.device).filter((d) => d.kind === 'capacitor'),
    supplies[0] ? nodeOf(supplies[0].plus) : GROUND,
  );
  // what a person sees stands in the plan's order
  const turn = new Map(plan.parts.map((part, i) => [part.id, i]));
  const inPlanOrder = <T extends { readonly placed: Placed }>(sites: readonly T[]): T[] =>
    [...sites].sort((a, b) => (turn.get(a.placed.part.id) ?? 0) - (turn.get(b.placed.part.id) ?? 0));
  const { leds, contacts, chips } = builder.sites;
  const seen = { leds: inPlanOrder(leds), contacts: inPlanOrder(contacts), supplies: inPlanOrder(supplies), chips, branches };
  return done({
    plan,
    layout: layout.value,
    nets,
    placed,
    network,
    netOf,
    interconnect: metal,
    nodeOf,
    nodeOfNet,
    netOfNode,
    wires,
    partition: blocks,
    ...seen,
    ...ids,
  });
}

type Sites = ReturnType<typeof makeBuilder>['sites'];

/** The sites by their part, so that nothing on a running bench has to look for one. */
function indexSites({ chips, supplies, contacts }: Sites): Pick<Circuit, 'chipById' | 'supplyById' | 'contactsById'> {
  const byPart = <T extends { readonly placed: Placed }>(sites: readonly T[]) => new Map(sites.map((s) => [s.placed.part.id, s]));
  const contactsById = new Map<string, ContactSite[]>();
  for (const contact of contacts) {
    const poles = contactsById.get(contact.placed.part.id) ?? [];
    poles[contact.pole] = contact;
    contactsById.set(contact.placed.part.id, poles);
  }
  return { chipById: byPart(chips), supplyById: byPart(supplies), contactsById };
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Bytes that a memory has no room for are refused, not wrapped round. */
function checkContents(plan: Plan, chips: ReadonlyMap<string, ChipSite>): Outcome<void> {
  for (const [id, rows] of Object.entries(plan.memories)) {
    const word = chips.get(id)?.spec.word;
    const dead = plan.parts.some((p) => p.id === id && p.damaged);
    if (!word && !dead)
      return failed(
        'plan/contents-without-memory',
        `memories/${id}`,
        `The plan has contents for ${id}, but no memory of that name is on the bench. Remove them, or place the memory.`,
      );
    const size = 2 ** (word?.address.length ?? 24) + (word?.beyond ?? 0);
    for (const [first, bytes] of Object.entries(rows)) {
      const last = Number.parseInt(first, 16) + bytes.length / 2 - 1;
      if (last >= size) {
        const hex = (n: number) => n.toString(16).toUpperCase();
        return failed(
          'plan/contents-past-end',
          `memories/${id}/${first}`,
          `The bytes of ${id} from ${first} on reach address ${hex(last)}, but it ends at ${hex(size - 1)}. Move them down or leave them out.`,
        );
      }
    }
  }
  return done(undefined);
}

function groupLegs(layout: Layout): Map<string, Leg[]> {
  const groups = new Map<string, Leg[]>();
  for (const leg of layout.legs) {
    const group = groups.get(leg.part.id);
    if (group) group.push(leg);
    else groups.set(leg.part.id, [leg]);
  }
  return groups;
}

/** Terminals of the supplies; the first one's minus, which is the reference, before all others. */
const terminalsOf = (placed: readonly Placed[]): Leg[] => placed.flatMap((p) => (p.kind.group === 'supply' ? [...p.legs].reverse() : []));

/** The nodes a voltmeter or a probe touches; undefined if its tip is in an empty row. */
export function meterNodes(meter: PlanMeter, metal: Interconnect): readonly [Node, Node] | undefined {
  if (meter.measures === 'amps') return undefined;
  const tip = metal.atPoint(meter.at);
  const other = meter.measures === 'level' || meter.against === undefined ? undefined : metal.atPoint(meter.against);
  return tip && [tip.node, other?.node ?? GROUND];
}

const nodesOn = (netOfNode: readonly number[], nets: ReadonlySet<number>): Node[] =>
  [...netOfNode.entries()].filter(([, net]) => nets.has(net)).map(([node]) => node);

function makeBuilder(network: Network, drive: 'typical' | 'guaranteed', nodeOf: (leg: Leg) => Node) {
  const leds: LedSite[] = [];
  const contacts: ContactSite[] = [];
  const supplies: SupplySite[] = [];
  const chips: ChipSite[] = [];
  const branches: Branch[] = [];

  const wiringFor = (placed: Placed): Wiring => {
    const legOf = (pin: string): Leg => {
      const leg = placed.legs.find((l) => l.pin === pin);
      if (!leg) throw new Error(`${placed.kind.id} wires pin ${pin}, which its footprint does not have`);
      return leg;
    };
    const branch = (a: string, b: string, make: (a: Node, b: Node) => Device): Branch => {
      const legs = [legOf(a), legOf(b)] as const;
      const made: Branch = { placed, legs, device: make(nodeOf(legs[0]), nodeOf(legs[1])) };
      branches.push(made);
      return made;
    };
    return {
      conductor: (a, b, siemens) => void branch(a, b, (i, j) => network.addConductance(i, j, siemens)),
      capacitor: (a, b, farads) => void branch(a, b, (i, j) => network.addCapacitor(i, j, farads)),
      junction(a, b, j, led) {
        // one of several LEDs in a body, burnt open
        if (led && placed.part.damaged?.pins?.includes(ownPin(placed, led, a))) return;
        const { device, legs } = branch(a, b, (p, q) => network.addJunction(p, q, j));
        if (led)
          leds.push({
            id: led.name ? `${placed.part.id}.${led.name}` : placed.part.id,
            placed,
            led,
            junction: j,
            device,
            anode: legs[0],
            cathode: legs[1],
          });
      },
      contact(a, b, pole, contact) {
        const { device, legs } = branch(a, b, (i, j) => network.addConductance(i, j, 1 / contact.off, true));
        contacts.push({ placed, pole, contact, device, legs });
      },
      supply(plus, minus, s) {
        const { device, legs } = branch(plus, minus, (i, j) => network.addSupply(i, j, s));
        supplies.push({ placed, device, plus: legs[0], minus: legs[1] });
      },
      transistor(collector, base, emitter, model) {
        const [c, b, e] = [legOf(collector), legOf(base), legOf(emitter)];
        const [main, steering] = network.addTransistor(nodeOf(c), nodeOf(b), nodeOf(e), model);
        branches.push({ placed, device: main, legs: [c, e] }, { placed, device: steering, legs: [b, e] });
      },
      chip(spec) {
        chips.push(placeChip(network, placed, spec, (name) => (spec.specialDrive?.[name] ?? spec.drive)[drive], nodeOf, branches));
      },
    };
  };
  return { wiringFor, sites: { leds, contacts, supplies, chips, branches } };
}

/** The pin that stands for one of several LEDs in a body: the one that bears its name, or its anode. */
export function ownPin({ kind, params }: Placed, led: Led, anode: string): string {
  const pins = kind.pins(params);
  return (pins.find((p) => p.name === led.name) ?? pins.find((p) => p.pin === anode))?.name ?? led.name;
}

/** What is left of a burnt output. */
const OPEN = { low: NOTHING, high: NOTHING };

const figuresOf = (spec: ChipSpec, name: string): InputFigures => spec.special?.[name] ?? spec.input;

function placeChip(
  network: Network,
  placed: Placed,
  spec: ChipSpec,
  channelsOf: (name: string) => { low: Channel; high: Channel },
  nodeOf: (leg: Leg) => Node,
  branches: Branch[],
): ChipSite {
  const pins = placed.kind.pins(placed.params);
  const pinNamed = (name: string): ChipPin => {
    const leg = placed.legs[pins.findIndex((p) => p.name === name)];
    if (!leg) throw new Error(`${placed.kind.id} has no pin named ${name}`);
    return { name, leg, node: nodeOf(leg) };
  };
  const supply = pinNamed(spec.supplyPin);
  const ground = pinNamed(spec.groundPin);
  const keep = (a: ChipPin, b: ChipPin, device: Device, whenHigh?: ChipPin): Device => {
    branches.push({ placed, legs: [a.leg, b.leg], device, ...(whenHigh ? { whenHigh: whenHigh.leg } : {}) });
    return device;
  };
  const marks = (spec.marks ?? []).map(({ pin }) => pinNamed(pin));
  const names = new Set([...spec.inputs, ...spec.outputs, ...marks.map((m) => m.name)]);
  const burnt = new Set(placed.part.damaged?.pins ?? []);
  for (const name of names) {
    if (burnt.has(name)) continue;
    const pin = pinNamed(name);
    const farads = spec.outputs.includes(name) ? spec.released.capacitance : figuresOf(spec, name).capacitance;
    network.addCapacitor(pin.node, ground.node, farads);
    keep(ground, pin, network.addClamp(ground.node, pin.node));
    if (!spec.noUpperClamps && !marks.some((m) => m.name === name)) keep(pin, supply, network.addClamp(pin.node, supply.node));
  }
  // a chip whose supply is reversed conducts from its ground pin to its supply pin
  keep(ground, supply, network.addClamp(ground.node, supply.node));
  return {
    placed,
    spec,
    supply,
    ground,
    inputs: spec.inputs.map((name): ChipInput => {
      const figures = figuresOf(spec, name);
      const { of } = figures;
      return { ...pinNamed(name), figures, ...(of ? { of: of === 'supply' ? supply.node : pinNamed(of.pin).node } : {}) };
    }),
    outputs: spec.outputs.map((name) => {
      const pin = pinNamed(name);
      return {
        ...pin,
        device: keep(pin, ground, network.addOutput(pin.node, ground.node, supply.node, burnt.has(name) ? OPEN : channelsOf(name)), supply),
      };
    }),
    burnt,
    marks,
    drain: keep(supply, ground, network.addConductance(supply.node, ground.node, spec.supplyCurrent.resting / 5, true)),
  };
}
