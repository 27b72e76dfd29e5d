/** Why a wire carries what it carries: the current of the legs on its one side, which of them take or give it, and which wires run beside it. */
import type { PlanWire } from '../../shared/plan.ts';
import type { Net } from '../board/nets.ts';
import { toPin, toWire } from '../findings/rule.ts';
import type { RuleContext } from '../findings/rule-context.ts';
import type { Branch } from '../run/circuit/sites.ts';
import { UNSEEN_AMPS } from '../units/seen.ts';
import type { Chain, Reason } from './answer.ts';
import { type LegCurrent, legCurrents } from './leg-currents.ts';

/** Legs that are named one by one. */
const MOST_NAMED = 4;

/** What flows through a wire, and through those that it cannot be told from. */
export interface WireFlow {
  /** the wire first; the others run beside it: only together do they part the two sides */
  readonly wires: readonly PlanWire[];
  /** of all of them together, from this wire's `from` to its `to` [A] */
  readonly amps: number;
  /** of this wire alone [A]; undefined where several ideal wires share it, as ideal wires may in any way */
  readonly own?: number;
  /** the legs on the side of `from`, and on that of `to` */
  readonly near: readonly LegCurrent[];
  readonly far: readonly LegCurrent[];
}

/** Undefined for a wire that is plugged into one strip with both its ends. */
export function wireFlow(scene: RuleContext, id: string): WireFlow | undefined {
  const { circuit } = scene;
  const wire = circuit.plan.wires.find((w) => w.id === id);
  const net = circuit.nets.all.find((n) => n.ends.some((e) => e.wire === wire));
  if (!wire || !net) throw new Error(`no wire ${id} on this bench`);
  const cut = smallestCut(net, wire);
  if (!cut) return undefined;
  const legs = legCurrents(scene, net);
  const [near, far] = [legs.filter((l) => cut.near.has(l.leg.strip)), legs.filter((l) => !cut.near.has(l.leg.strip))];
  // what the one side gives the other takes
  const amps = far.length <= near.length ? total(far) : -total(near);
  const own = cut.wires.length === 1 && circuit.wires.length === 0 ? amps : realCurrent(scene, id);
  return { wires: cut.wires, amps, near, far, ...(own === undefined ? {} : { own }) };
}

const total = (legs: readonly LegCurrent[]): number => legs.reduce((sum, l) => sum + l.amps, 0);

/** With resistance in wires each has its own current. */
function realCurrent({ circuit, amps }: RuleContext, id: string): number | undefined {
  const device = circuit.wires[circuit.interconnect.wires.findIndex((w) => w.wire === id)];
  return device && amps(device);
}

interface Stretch {
  readonly wire: PlanWire;
  readonly strips: readonly [from: string, to: string];
}

/**
 * The fewest wires, this one among them, without which its two ends would be two nets, and the strips on the side of its `from`: as many ways as lead from
 * one end to the other without a wire in common (Ford and Fulkerson), and what can still be reached when all are taken.
 */
function smallestCut(net: Net, wire: PlanWire): { wires: readonly PlanWire[]; near: ReadonlySet<string> } | undefined {
  const stretches = stretchesOf(net);
  const own = stretches.find((s) => s.wire === wire);
  if (!own || own.strips[0] === own.strips[1]) return undefined;
  const [start, goal] = own.strips;
  /** which way a wire is taken: to the strip at this place */
  const taken = new Map<Stretch, 0 | 1>();
  for (;;) {
    const reached = new Map<string, { readonly stretch: Stretch; readonly to: 0 | 1 } | undefined>([[start, undefined]]);
    for (const [strip] of reached)
      for (const stretch of stretches)
        for (const to of [0, 1] as const)
          if (stretch.strips[to === 0 ? 1 : 0] === strip && taken.get(stretch) !== to && !reached.has(stretch.strips[to]))
            reached.set(stretch.strips[to], { stretch, to });
    if (!reached.has(goal)) {
      const cut = stretches.filter(({ strips: [a, b] }) => reached.has(a) !== reached.has(b)).map((s) => s.wire);
      return { wires: [wire, ...cut.filter((w) => w !== wire)], near: new Set(reached.keys()) };
    }
    for (let step = reached.get(goal); step; step = reached.get(step.stretch.strips[step.to === 0 ? 1 : 0])) {
      if (taken.has(step.stretch)) taken.delete(step.stretch);
      else taken.set(step.stretch, step.to);
    }
  }
}

function stretchesOf(net: Net): readonly Stretch[] {
  const ends = new Map<PlanWire, [string, string]>();
  for (const { wire, end, strip } of net.ends) {
    const strips = ends.get(wire) ?? ['', ''];
    strips[end === 'from' ? 0 : 1] = strip;
    ends.set(wire, strips);
  }
  return [...ends].map(([wire, strips]) => ({ wire, strips }));
}

/** The wire's current, what shares it, and the legs that make it what it is. */
export function whyWire(scene: RuleContext, id: string): Chain {
  const flow = wireFlow(scene, id);
  if (!flow) return [{ code: 'wire-in-one-row', at: [toWire(id)], data: {} }];
  const { wires, own, amps } = flow;
  const at = wires.map((w) => toWire(w.id));
  const [first, ...others] = at;
  const [wire] = wires;
  const through = own ?? amps;
  const data = { amps: through, sum: amps, from: ends(wire, through)[0], to: ends(wire, through)[1] };
  if (Math.abs(amps) < UNSEEN_AMPS && Math.abs(through) < UNSEEN_AMPS) return [{ code: 'wire-idle', at, data }, ...whyIdle(flow)];
  const headline: Reason = {
    code: own === undefined ? 'wires-share' : 'wire-carries',
    at: own === undefined ? at : first ? [first] : [],
    data,
  };
  const beside: Reason[] = own !== undefined && others.length > 0 ? [{ code: 'wires-together', at, data }] : [];
  return [headline, ...beside, ...drawing(scene, flow)];
}

/** A side of the wire that no leg is on, or whose legs take and give nothing. */
function whyIdle({ near, far, wires: [wire] }: WireFlow): readonly Reason[] {
  const sides = [
    { legs: near, end: wire?.from ?? '' },
    { legs: far, end: wire?.to ?? '' },
  ].sort((a, b) => a.legs.length - b.legs.length);
  const idle = sides.find(({ legs }) => legs.every((l) => Math.abs(l.amps) < UNSEEN_AMPS));
  if (!idle) return [];
  const at = idle.legs.slice(0, MOST_NAMED).map((l) => toPin(l.leg));
  return [{ code: 'side-idle', at, data: { end: idle.end, more: idle.legs.length - at.length } }];
}

/** The holes of a wire in the direction of its current. */
const ends = (wire: PlanWire | undefined, amps: number): readonly [string, string] => {
  const [from, to] = [wire?.from ?? '', wire?.to ?? ''];
  return amps < 0 ? [to, from] : [from, to];
};

/** What takes the current on the side that it flows to, or gives it on the side that it comes from: where no supply is, or on both. */
function drawing(scene: RuleContext, { near, far, amps }: WireFlow): readonly Reason[] {
  const [from, to] = amps < 0 ? [far, near] : [near, far];
  const isSupplied = (side: readonly LegCurrent[]) =>
    side.some(({ leg }) => scene.circuit.supplies.some((s) => s.plus === leg || s.minus === leg));
  const takers = isSupplied(to) && !isSupplied(from) ? [] : named(scene, to, 'takes');
  const givers = isSupplied(from) && !isSupplied(to) ? [] : named(scene, from, 'gives');
  return [...takers, ...givers];
}

/** What gives current to this net and what takes it, at a pin that neither of them wins. */
export function pullers(scene: RuleContext, net: Net): readonly Reason[] {
  const legs = legCurrents(scene, net);
  return [...named(scene, legs, 'gives'), ...named(scene, legs, 'takes')].filter((r) => r.code.startsWith('leg-'));
}

/** The legs of one side with the largest currents, and the sum of the others. */
function named(scene: RuleContext, side: readonly LegCurrent[], way: 'takes' | 'gives'): readonly Reason[] {
  const sign = way === 'takes' ? 1 : -1;
  const largest = side.filter((l) => sign * l.amps >= UNSEEN_AMPS).sort((a, b) => sign * (b.amps - a.amps));
  const first = largest.slice(0, MOST_NAMED);
  const rest = side.filter((l) => !first.includes(l) && Math.abs(l.amps) >= UNSEEN_AMPS);
  const sum = sign * total(rest);
  return [
    ...first.map((l): Reason => ({ code: `leg-${way}`, at: [toPin(l.leg)], data: { amps: sign * l.amps, ...across(scene, l) } })),
    ...(rest.length > 0
      ? [{ code: `legs-rest-${sum < 0 ? 'against' : 'with'}`, at: [], data: { count: rest.length, amps: Math.abs(sum) } }]
      : []),
  ];
}

/** What sets a leg's current, where it is one resistance. */
function across({ circuit, at }: RuleContext, { leg }: LegCurrent): Record<string, number> {
  const own = circuit.branches.filter((b) => b.legs.includes(leg));
  const [branch, more] = own as [Branch | undefined, Branch | undefined];
  if (!branch || more || branch.placed.kind.group !== 'passive' || branch.device.kind !== 'conductance') return {};
  const volts = Math.abs(at(circuit.netOf(branch.legs[0]).index) - at(circuit.netOf(branch.legs[1]).index));
  return { ohms: 1 / circuit.network.conductance(branch.device), volts };
}
