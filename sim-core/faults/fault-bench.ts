/** The bench on which mistakes are looked for: its circuit, what its plan may be edited with, and which side of the supply a net is. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import type { Leg, WireEnd } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { isRailHole } from '../board/tie-points.ts';
import { type EditContext, editContext, type FreeRoom, roomBeside } from '../document/edits/edit-context.ts';
import { reachOf } from '../findings/resistive-reach.ts';
import { toPin } from '../findings/rule.ts';
import { partLookup } from '../parts/footprint-index.ts';
import type { Pin, PinRole } from '../parts/part.ts';
import { buildCircuit, type Circuit } from '../run/circuit/circuit.ts';
import type { Placed } from '../run/circuit/sites.ts';
import type { Ref } from '../sentence/wording.ts';

export interface FaultBench {
  readonly plan: Plan;
  readonly circuit: Circuit;
  readonly context: EditContext;
  readonly room: FreeRoom;
}

/** Fails with `plan/…`. */
export function faultBench(plan: Plan): Outcome<FaultBench> {
  const circuit = buildCircuit(plan);
  if (!circuit.ok) return circuit;
  const context = editContext(plan, partLookup);
  return context.ok ? done({ plan, circuit: circuit.value, context: context.value, room: roomBeside(context.value) }) : context;
}

type SupplySide = 'plus' | 'minus';

/** The side of a supply that this metal is, if it is one. */
export function sideOf({ circuit }: FaultBench, strip: string): SupplySide | undefined {
  const net = circuit.nets.ofStrip.get(strip)?.index ?? -1;
  const { plus, minus } = reachOf(circuit);
  return plus.has(net) ? 'plus' : minus.has(net) ? 'minus' : undefined;
}

export const netAt = ({ circuit }: FaultBench, strip: string): Net | undefined => circuit.nets.ofStrip.get(strip);

/** A wire with its two ends. */
export interface LaidWire {
  readonly wire: PlanWire;
  readonly ends: readonly [WireEnd, WireEnd];
}

export function laidWires({ context }: FaultBench): readonly LaidWire[] {
  const { ends } = context.layout;
  return context.plan.wires.flatMap((wire, i) => {
    const [from, to] = [ends[2 * i], ends[2 * i + 1]];
    return from && to ? [{ wire, ends: [from, to] as const }] : [];
  });
}

/** What a wire is for: from the supply, between rails, to a chip's supply pins, or anything else. */
export function purposeOf(bench: FaultBench, { ends }: LaidWire): 'supply' | 'rails' | 'chip' | 'signal' {
  if (ends.some((e) => !e.hole && rolesAt(bench, e.strip).length > 0)) return 'supply';
  if (ends.every((e) => e.hole && isRailHole(e.hole))) return 'rails';
  return ends.some((e) => rolesAt(bench, e.strip).length > 0) ? 'chip' : 'signal';
}

/** Roles of supply pins that stand in this metal. */
const rolesAt = ({ circuit }: FaultBench, strip: string): readonly PinRole[] =>
  (circuit.nets.ofStrip.get(strip)?.legs ?? [])
    .filter((l) => l.strip === strip)
    .flatMap((l) => {
      const role = pinOf(circuit, l)?.role;
      return role === 'supply' || role === 'ground' ? [role] : [];
    });

/** Does this wire hold a control pin that a chip must have low, or high, to drive its outputs? Data sheets write a bar before such a pin's name. */
export function isEnable(bench: FaultBench, { ends }: LaidWire): boolean {
  const strips = new Set(ends.map((e) => e.strip));
  return bench.circuit.chips.some(({ spec, inputs }) =>
    inputs.some(({ name, leg }) => strips.has(leg.strip) && (name in (spec.toRead ?? {}) || name.startsWith('/'))),
  );
}

/** A leg's pin as its kind describes it. */
export function pinOf(circuit: Circuit, leg: Leg): Pin | undefined {
  const placed = circuit.placed.get(leg.part.id);
  return placed?.kind.pins(placed.params).find((p) => p.pin === leg.pin);
}

/** Parts that stand on two bent wires. */
export const onTwoLegs = ({ circuit }: FaultBench): readonly Placed[] =>
  [...circuit.placed.values()].filter(({ part, legs }) => part.at !== undefined && part.to !== undefined && legs.length === 2);

/** A part with a conductance and nothing else between its two legs. */
export const resistorsOf = (bench: FaultBench): readonly Placed[] =>
  onTwoLegs(bench).filter(({ kind }) => kind.group === 'passive' && kind.params[0]?.type === 'number' && kind.params[0].unit === 'Ω');

/** Does this resistor hold an input, rather than limit a current: one leg on the supply, the other where a chip listens and no LED is? */
export function isPull(bench: FaultBench, { legs }: Placed): boolean {
  const { circuit } = bench;
  const [held] = legs.filter((l) => sideOf(bench, l.strip) === undefined);
  if (!held || legs.every((l) => sideOf(bench, l.strip) === undefined)) return false;
  const net = circuit.netOf(held);
  const isLed = circuit.leds.some((d) => circuit.netOf(d.anode) === net || circuit.netOf(d.cathode) === net);
  return !isLed && circuit.chips.some((c) => c.inputs.some((i) => circuit.netOf(i.leg) === net));
}

/** Parts with rows of legs, of one group. */
export const socketed = ({ circuit }: FaultBench, ...groups: readonly Placed['kind']['group'][]): readonly Placed[] =>
  [...circuit.placed.values()].filter(({ part, kind, legs }) => groups.includes(kind.group) && part.at !== undefined && legs.length > 2);

export const partRef = (part: PlanPart): Ref => ({ kind: 'part', id: part.id });
export const wireRef = (wire: PlanWire): Ref => ({ kind: 'wire', id: wire.id });
export const pointRef = (hole: string): Ref => ({ kind: 'point', id: hole });

/** The pins that stand in these strips. */
export const pinsIn = ({ circuit }: FaultBench, strips: readonly string[]): readonly Ref[] =>
  circuit.layout.legs.filter((l) => strips.includes(l.strip)).map(toPin);
