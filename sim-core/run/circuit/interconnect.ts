/**
 * The metal of the bench as nodes: with ideal wiring every net is one; with real wiring every wire, and every stretch of a rail between two holes in use,
 * is a resistance. A strip of five holes stays one node (its whole length is some 4 mΩ), and so does what a part's leg adds by its own contact.
 */
import type { Plan } from '../../../shared/plan.ts';
import { BOARDS, railX } from '../../board/boards.ts';
import type { Layout, Leg, WireEnd } from '../../board/layout.ts';
import type { Net, Nets } from '../../board/nets.ts';
import { type Hole, holeSpot, isRailHole, readHole, stripOf } from '../../board/tie-points.ts';
import { GROUND, type Node } from '../../devices/network.ts';
import { compareTexts } from '../../units/text-list.ts';

/** Solid copper, AWG 22 [Ω/m]: SOURCES.md S62. */
export const WIRE = 53e-3;
/** Metal of a rail [Ω/inch] and one contact of a wire in a hole [Ω]: 80 mΩ over 5.75 inch and 48 mΩ over 2.75 inch, each with two contacts, SOURCES.md S55. */
export const RAIL = (80e-3 - 48e-3) / (5.75 - 2.75);
export const CONTACT = (48e-3 - 2.75 * RAIL) / 2;
/** One pitch [m, inch]. */
const PITCH = 2.54e-3;
const PITCH_INCHES = 0.1;
/** A wire is this much longer than the straight way between its ends [m]: it goes up and comes down. Our choice. */
const SLACK = 20e-3;
/** A wire to a terminal of which the plan does not say where it stands [m]; our choice. */
export const FLYING = 0.3;

/** A leg, a wire's end, or a tip of a meter. */
type End = Pick<Leg, 'hole' | 'strip'>;

/** Two nodes and the resistance between them. */
export interface Wire {
  readonly a: Node;
  readonly b: Node;
  readonly ohms: number;
  /** the plan's wire; absent for a stretch of a rail */
  readonly wire?: string;
}

export interface Interconnect {
  /** by node: its net */
  readonly netOfNode: readonly number[];
  /** by net: the node that stands for it, which is a supply's terminal if it has one */
  readonly nodeOfNet: readonly Node[];
  /** in the order of the circuit's `wires` */
  readonly wires: readonly Wire[];
  /** where a leg or a wire's end touches the metal */
  nodeAt(end: End): Node;
  /** what is at a tie point or terminal by name; undefined where nothing is */
  atPoint(point: string): { readonly node: Node; readonly net: Net } | undefined;
}

/** terminals: of supplies; the first of them is the reference. */
export function layInterconnect(layout: Layout, nets: Nets, terminals: readonly Leg[], real: boolean): Interconnect {
  const { meters } = layout.plan;
  const probes = meters.flatMap((m) =>
    m.measures === 'amps' ? [] : m.measures === 'level' || m.against === undefined ? [m.at] : [m.at, m.against],
  );
  const touched = [...layout.legs, ...layout.ends, ...probes.map((p) => endAt(p, layout))];
  const nameOf = nets.all.map((net) => [...net.strips].sort(compareTexts)[0] ?? '');
  const placeOf = (end: End): string | undefined => {
    const net = nets.ofStrip.get(end.strip);
    return net && (real ? ownPlace(end) : nameOf[net.index]);
  };

  const netAt = new Map<string, Net>();
  for (const end of touched) {
    const [place, net] = [placeOf(end), nets.ofStrip.get(end.strip)];
    if (place !== undefined && net) netAt.set(place, net);
  }
  const [reference] = terminals;
  const ground = reference && placeOf(reference);
  // numbered by names, not by their order in the file
  const places = [...netAt.keys()].filter((p) => p !== ground).sort(compareTexts);
  const numbers = new Map(places.map((p, node) => [p, node]));
  const nodeAt = (end: End): Node => numbers.get(placeOf(end) ?? '') ?? GROUND;

  const netOfNode = places.map((p) => (netAt.get(p) as Net).index);
  const nodeOfNet = nets.all.map(() => GROUND);
  for (const [node, net] of [...netOfNode.entries()].reverse()) nodeOfNet[net] = node;
  for (const leg of [...terminals].reverse()) nodeOfNet[(nets.ofStrip.get(leg.strip) as Net).index] = nodeAt(leg);
  return {
    netOfNode,
    nodeOfNet,
    wires: real
      ? [...wiresOf(layout, nodeAt), ...railsOf(touched, nodeAt, nets)].sort((p, q) => p.a - q.a || p.b - q.b || p.ohms - q.ohms)
      : [],
    nodeAt,
    atPoint(point) {
      const end = endAt(point, layout);
      const net = nets.ofStrip.get(end.strip);
      return net && { node: nodeAt(end), net };
    },
  };
}

const ownPlace = ({ hole, strip }: End): string => (hole && isRailHole(hole) ? `${strip}.${hole.k}` : strip);

/** A hole, or a terminal beside the boards, by name. */
function endAt(point: string, { plan }: Layout): End {
  const hole = readHole(point, plan.boards);
  return hole.ok ? { hole: hole.value, strip: stripOf(hole.value) } : { strip: point };
}

/** Each wire with a contact at every hole that it ends in. */
function wiresOf({ plan, ends }: Layout, nodeAt: (end: End) => Node): Wire[] {
  const wires: Wire[] = [];
  for (let i = 0; i < ends.length; i += 2) {
    const [from, to] = [ends[i], ends[i + 1]];
    if (!from || !to) continue;
    const [a, b] = [spotOf(from, plan), spotOf(to, plan)];
    const metres = a && b ? Math.hypot(a[0] - b[0], a[1] - b[1]) * PITCH + SLACK : FLYING;
    const contacts = [from, to].filter((e) => e.hole).length;
    wires.push({ a: nodeAt(from), b: nodeAt(to), ohms: metres * WIRE + contacts * CONTACT, wire: from.wire.id });
  }
  return wires;
}

/** [pitch] */
function spotOf({ hole, strip }: WireEnd, plan: Plan): readonly [x: number, y: number] | undefined {
  return hole ? holeSpot(hole) : plan.parts.find((p) => strip.startsWith(`${p.id}.`))?.spot;
}

/** From each hole of a rail that is in use to the next. */
function railsOf(touched: readonly End[], nodeAt: (end: End) => Node, nets: Nets): Wire[] {
  const rails = new Map<string, Map<number, End>>();
  for (const end of touched) {
    if (!end.hole || !isRailHole(end.hole) || !nets.ofStrip.has(end.strip)) continue;
    const used = rails.get(end.strip) ?? new Map<number, End>();
    used.set(end.hole.k, end);
    rails.set(end.strip, used);
  }
  return [...rails.values()].flatMap((used) => {
    const inCountingOrder = [...used].sort(([k], [l]) => k - l);
    return inCountingOrder.slice(1).map(([k, end], i): Wire => {
      const [before, from] = inCountingOrder[i] as [number, End];
      const kind = BOARDS[(end.hole as Hole).board.kind];
      return { a: nodeAt(from), b: nodeAt(end), ohms: (railX(kind, k) - railX(kind, before)) * PITCH_INCHES * RAIL };
    });
  });
}
