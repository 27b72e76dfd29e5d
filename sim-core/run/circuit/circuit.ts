/** From a plan to a circuit: nets become nodes, parts become primitives, and every LED, contact, chip and supply is known by its place in it. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { Plan, PlanMeter, PlanPart } from '../../../shared/plan.ts';
import { type Layout, type Leg, layOut } from '../../board/layout.ts';
import { findNets, type Net, type Nets } from '../../board/nets.ts';
import { type Device, GROUND, Network, type Node } from '../../devices/network.ts';
import { endOfRows } from '../../document/memory-rows.ts';
import { partKind } from '../../parts/catalogue.ts';
import { shapeOf } from '../../parts/footprint-index.ts';
import { type ChipSpec, readParams, type Wiring } from '../../parts/part.ts';
import { compareTexts } from '../../units/text-list.ts';
import { type Interconnect, layInterconnect } from './interconnect.ts';
import { overriddenParams, overriddenWiring, type PartOverrides } from './part-overrides.ts';
import { Partition } from './partition.ts';
import { makeSiteBuilder } from './site-builder.ts';
import type { Branch, ChipSite, CoilSite, ContactSite, InnerNode, LedSite, Placed, SupplySite } from './sites.ts';

/** A plan as a circuit: its nets, its network, and everything on it by place and by part. */
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
  /** node → net index; of a node inside a part, that of one of its legs */
  readonly netOfNode: readonly number[];
  readonly innerNodes: readonly InnerNode[];
  /** wires, and stretches of rails, that have resistance */
  readonly wires: readonly Device[];
  readonly leds: readonly LedSite[];
  readonly contacts: readonly ContactSite[];
  readonly supplies: readonly SupplySite[];
  readonly chips: readonly ChipSite[];
  readonly coils: readonly CoilSite[];
  /** by part */
  readonly chipById: ReadonlyMap<string, ChipSite>;
  readonly supplyById: ReadonlyMap<string, SupplySite>;
  /** by part, then by pole */
  readonly contactsById: ReadonlyMap<string, readonly ContactSite[]>;
  readonly branches: readonly Branch[];
  readonly partition: Partition;
}

/** What a voltmeter loads the bench with [S]: 10 MΩ, common practice, no source. */
export const METER = 1e-7;

/**
 * Builds the circuit, or says what on the plan cannot be. `drive` chooses the curve of the outputs; `specimens` are the parts that differ from what the plan says.
 * before: a circuit that differs by nothing but wires; where these join the same legs as there, its network is this one's too.
 * Fails with `plan/…`.
 */
export function buildCircuit(
  plan: Plan,
  drive: 'typical' | 'guaranteed' = plan.outputs ?? 'typical',
  specimens?: PartOverrides,
  before?: Circuit,
): Outcome<Circuit> {
  const layout = layOut(plan, shapeOf);
  if (!layout.ok) return layout;
  const nets = findNets(layout.value);
  const netOf = netIn(nets);
  const alike = before && withWires(before, layout.value, nets);
  if (alike) return done(alike);

  const placed = placeParts(layout.value, specimens);
  // nodes and primitives are numbered by names, not by their order in the file, so that no order changes a bit of any result
  const byName = [...placed.values()].sort((a, b) => compareTexts(a.part.id, b.part.id));
  const metal = layInterconnect(layout.value, nets, terminalsOf(byName), plan.wiring === 'real');
  const { netOfNode, nodeOfNet, nodeAt: nodeOf } = metal;
  const network = new Network(netOfNode.length);
  const builder = makeSiteBuilder(network, drive, nodeOf, specimens !== undefined);
  for (const p of byName) connectPart(builder.wiringFor(p), p, specimens);
  connectMeters(plan, network, metal);
  const wires = metal.wires.map(({ a, b, ohms }) => network.addConductance(a, b, 1 / ohms));
  const ids = indexSites(builder.sites);
  const contents = checkContents(plan, (id) => ids.chipById.get(id)?.spec);
  if (!contents.ok) return contents;
  network.seal();
  const { supplies, branches } = builder.sites;
  const blocks = new Partition(
    network,
    // all of a rail is stiff, however long it is
    new Set(nodesOn(netOfNode, new Set(supplies.flatMap((s) => [netOf(s.plus).index, netOf(s.minus).index])))),
    branches.map((b) => b.device).filter((d) => d.kind === 'capacitor' || d.kind === 'coil'),
    supplies[0] ? nodeOf(supplies[0].plus) : GROUND,
  );
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
    netOfNode: [...netOfNode, ...builder.innerNodes.map((i) => netOf(i.leg).index)],
    innerNodes: builder.innerNodes,
    wires,
    partition: blocks,
    ...inPlanOrder(plan, builder.sites),
    ...ids,
  });
}

/** A function of its own, as one made elsewhere would keep all that stands beside it: a circuit would hold the one before it, and that the one before. */
const netIn =
  (nets: Nets) =>
  (leg: Leg): Net =>
    nets.ofStrip.get(leg.strip) as Net;

/** The circuit with other wires, if every leg and every tip of a meter is at the node where it was. */
function withWires(circuit: Circuit, layout: Layout, nets: Nets): Circuit | undefined {
  const { plan } = layout;
  const { interconnect: was, innerNodes, placed } = circuit;
  if (plan.wiring === 'real') return undefined;
  const metal = layInterconnect(layout, nets, terminalsOf([...placed.values()]), false);
  const nodes = (meter: PlanMeter, of: Interconnect) => meterNodes(meter, of)?.join();
  const isAlike =
    metal.netOfNode.length === was.netOfNode.length &&
    layout.legs.every((leg) => metal.nodeAt(leg) === was.nodeAt(leg)) &&
    plan.meters.every((meter) => nodes(meter, metal) === nodes(meter, was));
  if (!isAlike) return undefined;
  const netOf = netIn(nets);
  return {
    ...circuit,
    plan,
    layout,
    nets,
    netOf,
    interconnect: metal,
    nodeOf: metal.nodeAt,
    nodeOfNet: metal.nodeOfNet,
    netOfNode: [...metal.netOfNode, ...innerNodes.map((i) => netOf(i.leg).index)],
  };
}

/** Every part with its kind and its completed figures, by its id. */
function placeParts(layout: Layout, specimens: PartOverrides | undefined): Map<string, Placed> {
  const legsOf = groupLegs(layout);
  return new Map(layout.plan.parts.map((part) => [part.id, placePart(part, legsOf.get(part.id) ?? [], specimens)]));
}

/** A part that was laid out, on its legs. */
export function placePart(part: PlanPart, legs: readonly Leg[], specimens: PartOverrides | undefined): Placed {
  const kind = partKind(part.kind);
  const params = kind && readParams(kind, part);
  if (!kind || !params?.ok) throw new Error(`${part.id} was laid out without a shape`);
  return { part, kind, params: overriddenParams(params.value, specimens?.get(part.id)), legs };
}

/** What is between its legs, or what damage has left of it. */
export function connectPart(own: Wiring, { part, kind, params }: Placed, specimens: PartOverrides | undefined): void {
  const wiring = overriddenWiring(own, specimens?.get(part.id));
  if (part.damaged && !part.damaged.pins) kind.wireDamaged?.(wiring, params);
  else kind.connect(wiring, params);
}

function connectMeters(plan: Plan, network: Network, interconnect: Interconnect): void {
  for (const meter of [...plan.meters].sort((a, b) => compareTexts(a.id, b.id))) {
    const tips = meterNodes(meter, interconnect);
    if (tips) network.addConductance(...tips, METER);
  }
}

type Sites = ReturnType<typeof makeSiteBuilder>['sites'];

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

/** What a person sees stands in the plan's order. */
function inPlanOrder(plan: Plan, { leds, contacts, supplies, chips, coils, branches }: Sites): Sites {
  const turn = new Map(plan.parts.map((part, i) => [part.id, i]));
  const sorted = <T extends { readonly placed: Placed }>(sites: readonly T[]): T[] =>
    [...sites].sort((a, b) => (turn.get(a.placed.part.id) ?? 0) - (turn.get(b.placed.part.id) ?? 0));
  return { leds: sorted(leds), contacts: sorted(contacts), supplies: sorted(supplies), chips, coils: sorted(coils), branches };
}

/** Bytes that a memory has no room for are refused, not wrapped round. */
export function checkContents(plan: Plan, specOf: (id: string) => ChipSpec | undefined): Outcome<void> {
  for (const [id, rows] of Object.entries(plan.memories)) {
    const word = specOf(id)?.word;
    const dead = plan.parts.some((p) => p.id === id && p.damaged);
    if (!word && !dead)
      return failed(
        'plan/contents-without-memory',
        `memories/${id}`,
        `The plan has contents for ${id}, but no memory of that name is on the bench. Remove them, or place the memory.`,
      );
    const size = 2 ** (word?.address.length ?? 24) + (word?.beyond ?? 0);
    if (endOfRows(rows) <= size) continue;
    for (const [first, bytes] of Object.entries(rows)) {
      const last = Number.parseInt(first, 16) + bytes.length / 2 - 1;
      if (last >= size) {
        const hex = (n: number) => n.toString(16).toUpperCase();
        return failed(
          'plan/contents-past-end',
          `memories/${id}/${first}`,
          `The bytes of ${id} from 0x${first} on reach address 0x${hex(last)}, but it ends at 0x${hex(size - 1)}. Move them down or leave them out.`,
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
const terminalsOf = (placed: readonly Placed[]): Leg[] =>
  placed
    .filter((p) => p.kind.group === 'supply')
    .sort((a, b) => compareTexts(a.part.id, b.part.id))
    .flatMap((p) => [...p.legs].reverse());

/** The nodes a voltmeter or a probe touches; undefined if its tip is in an empty row. */
export function meterNodes(meter: PlanMeter, metal: Interconnect): readonly [Node, Node] | undefined {
  if (meter.measures === 'amps') return undefined;
  const tip = metal.atPoint(meter.at);
  const other = meter.measures === 'level' || meter.against === undefined ? undefined : metal.atPoint(meter.against);
  return tip && [tip.node, other?.node ?? GROUND];
}

const nodesOn = (netOfNode: readonly number[], nets: ReadonlySet<number>): Node[] =>
  [...netOfNode.entries()].filter(([, net]) => nets.has(net)).map(([node]) => node);
