/** Why a net gets nothing: what is missing where its way ends, and what stands one row off. */
import type { Leg, WireEnd } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { stripAt } from '../board/tie-points.ts';
import { namer } from '../document/edits/ids.ts';
import { reachOf } from '../findings/resistive-reach.ts';
import { toLed, toNet, toPart, toPin, toWire } from '../findings/rule.ts';
import { reversed } from '../findings/rules/led/reversed.ts';
import type { LedSite } from '../run/circuit/sites.ts';
import type { Reason } from './answer.ts';
import { usualResistor } from './current.ts';
import {
  type CandidateFix,
  type ExplanationQuestion,
  type ExplanationStep,
  explanationStep,
  replacedPart,
  type Side,
} from './explanation-step.ts';
import { freeHole, freeRailHole, isRail, stripBeside } from './nearby-holes.ts';

/** How far off a hand may have pushed a leg or a wire [rows]. */
const MISSED_BY = [1, -1, 2, -2];
/** An LED with less than this in its way must not be joined to a rail [Ω]. */
const LIMITING = 100;
/** In series with an LED where no other LED says what is usual [Ω]: common practice, no source. */
const SERIES = 330;

/** net: where the way ends that should lead to the supply's plus (high) or minus (low). of: whether an LED's current has to go that way, and which. */
export function whyOpen(q: ExplanationQuestion, net: Net, side: Side, of: 'led' | 'pin', site?: LedSite): ExplanationStep {
  const { circuit } = q.scene;
  const reach = reachOf(circuit);
  const reached = reach.from(net.index, 'no LEDs', (c) => !q.scene.closed(c));
  const nets = [...reached].sort((a, b) => b[1] - a[1]).map(([n]) => circuit.nets.all[n] as Net);
  const rail = railNotConnected(q, nets, side);
  if (rail) return rail;
  const wrong = site ? legAtOtherRail(q, nets, side) : [];
  const [first] = wrong;
  // where the LED is the wrong way round its resistor may be right
  if (first?.claims && site && !reversed(circuit, site)) return explanationStep([first.claims], wrong);
  const limited = of === 'pin' || side === 'high' || Math.max(0, ...reached.values()) >= LIMITING;
  return explanationStep(
    [(site && blocked(q, nets, side)) ?? whereItEnds(q, nets, side)],
    [
      ...oneRowOff(q, nets, side),
      ...wrong,
      ...otherLed(q, nets, side, site),
      ...legInWrongRow(q, net, side, site),
      ...joined(q, nets, limited, side, site),
    ],
  );
}

/** A resistor of an LED that goes to the rail of the other side. */
function legAtOtherRail({ scene: { circuit } }: ExplanationQuestion, nets: readonly Net[], side: Side): CandidateFix[] {
  const { plus, minus } = reachOf(circuit);
  const [ends, others] = side === 'high' ? [plus, minus] : [minus, plus];
  return circuit.branches.flatMap(({ placed: { part, kind, legs }, device }) => {
    if (kind.group !== 'passive' || device.kind !== 'conductance' || part.to === undefined) return [];
    const leg = legs.find((l) => isRail(l.strip) && others.has(circuit.netOf(l).index));
    const inWay = legs.some((l) => l !== leg && nets.includes(circuit.netOf(l)));
    if (!leg || !inWay) return [];
    const claims: Reason = { code: 'leg-at-other-rail', at: [{ kind: 'part', id: part.id }, toPin(leg)], data: { side } };
    return [...ends].flatMap((net) => {
      const hole = freeRailHole(circuit, net, leg.strip);
      const fix = hole === undefined ? undefined : moveLeg(leg, hole);
      return fix ? [{ ...fix, claims }] : [];
    });
  });
}

/** A rail that is in the way but that no supply feeds. */
function railNotConnected(q: ExplanationQuestion, nets: readonly Net[], side: Side): ExplanationStep | undefined {
  const { circuit } = q.scene;
  const reach = reachOf(circuit);
  const target = [...(side === 'high' ? reach.plus : reach.minus)];
  for (const net of nets) {
    const rail = net.strips.find(isRail);
    if (!rail || reach.plus.has(net.index) || reach.minus.has(net.index)) continue;
    const from = freeHole(circuit.layout, rail);
    const fixes = target.flatMap((t): CandidateFix[] => {
      const to = freeRailHole(circuit, t, rail);
      return from && to ? [addWire(q, from, to, side, 'join-rail')] : [];
    });
    const ends = fixes.slice(0, 1).flatMap((f) => [f.data.from, f.data.to].map((id) => ({ kind: 'point', id: String(id) }) as const));
    return explanationStep([{ code: 'rail-not-connected', at: [...toNet(net), ...ends], data: { strip: rail, side } }], fixes);
  }
  return undefined;
}

/** Legs and wires' ends that stand alone one or two rows beside where the way ends. */
function oneRowOff(q: ExplanationQuestion, nets: readonly Net[], side: Side): CandidateFix[] {
  const { layout } = q.scene.circuit;
  return nets.flatMap((net) =>
    MISSED_BY.flatMap((by) =>
      net.strips.flatMap((strip): CandidateFix[] => {
        const beside = stripBeside(strip, by);
        const legs = layout.legs.filter((l) => l.strip === beside);
        const ends = layout.ends.filter((e) => e.strip === beside);
        if (beside === undefined || legs.length + ends.length !== 1) return [];
        const hole = freeHole(layout, strip);
        const fix = hole && (legs[0] ? moveLeg(legs[0], hole) : ends[0] && moveEnd(ends[0], hole));
        if (!fix || nets.some((n) => n.strips.includes(beside))) return [];
        const wire = toWire(ends[0]?.wire.id ?? '');
        const at = legs[0] ? [{ kind: 'part', id: legs[0].part.id } as const, toPin(legs[0])] : [wire, wire];
        return [{ ...fix, claims: { code: 'one-row-off', at, data: { strip, beside, by: Math.abs(by), side } } }];
      }),
    ),
  );
}

/** Another LED stands in the way, and might be the wrong way round. */
function otherLed(
  { scene: { circuit } }: ExplanationQuestion,
  nets: readonly Net[],
  side: Side,
  site: LedSite | undefined,
): CandidateFix[] {
  if (!site) return [];
  return circuit.leds.flatMap((other) => {
    const [here, there] = side === 'low' ? [other.anode, other.cathode] : [other.cathode, other.anode];
    const isInWay = other !== site && nets.includes(circuit.netOf(there)) && !nets.includes(circuit.netOf(here));
    return isInWay ? reversedLed(other).fixes : [];
  });
}

/** The LED's own leg stands alone, and a row beside it is in use. */
function legInWrongRow(q: ExplanationQuestion, net: Net, side: Side, site: LedSite | undefined): CandidateFix[] {
  const { circuit } = q.scene;
  const leg = site && (side === 'high' ? site.anode : site.cathode);
  if (!leg || net.legs.length !== 1 || net.ends.length > 0) return [];
  return MISSED_BY.flatMap((by): CandidateFix[] => {
    const beside = stripBeside(leg.strip, by);
    const used = beside && circuit.nets.ofStrip.get(beside);
    const hole = beside && freeHole(circuit.layout, beside);
    const fix = used && hole ? moveLeg(leg, hole) : undefined;
    if (!fix || !beside || circuit.layout.legs.some((l) => l.strip === beside && l.part === leg.part)) return [];
    const at = [{ kind: 'part', id: leg.part.id } as const, toPin(leg)];
    return [{ ...fix, claims: { code: 'one-row-off', at, data: { strip: beside, beside: leg.strip, by: Math.abs(by), side } } }];
  });
}

/** Only a capacitor connects further, and it blocks DC. */
function blocked(q: ExplanationQuestion, nets: readonly Net[], side: Side): Reason | undefined {
  const { circuit } = q.scene;
  const { plus, minus } = reachOf(circuit);
  const inWay = (leg: Leg) => {
    const net = circuit.netOf(leg);
    return nets.includes(net) && !plus.has(net.index) && !minus.has(net.index);
  };
  const branch = circuit.branches.find((b) => b.device.kind === 'capacitor' && b.placed.kind.group === 'passive' && b.legs.some(inWay));
  return branch && { code: 'capacitor-in-path', at: [toPart(branch.placed)], data: { side } };
}

/** What stands alone where the path ends: a wire's end, or a leg; else the row, which leads nowhere. */
function whereItEnds({ scene: { circuit } }: ExplanationQuestion, nets: readonly Net[], side: Side): Reason {
  const { legs, ends } = circuit.layout;
  const [end] = nets;
  for (const strip of nets.flatMap((n) => n.strips)) {
    const [leg, ...otherLegs] = legs.filter((l) => l.strip === strip);
    const [wire, ...otherEnds] = ends.filter((e) => e.strip === strip);
    if (isRail(strip) || otherLegs.length + otherEnds.length > 0 || (leg && wire)) continue;
    if (wire) return { code: 'wire-end-alone', at: [toWire(wire.wire.id), ...toNet(end)], data: { strip, side } };
    if (leg?.part.to !== undefined)
      return { code: 'leg-alone', at: [{ kind: 'part', id: leg.part.id }, toPin(leg)], data: { strip, side } };
  }
  const strip = end?.strips.find((s) => !isRail(s) && s.includes('/')) ?? '';
  return { code: 'not-connected', at: toNet(end), data: { strip, side } };
}

/** A wire, or a resistor where nothing else would limit the current, from there to the supply. */
function joined(q: ExplanationQuestion, nets: readonly Net[], limited: boolean, side: Side, site: LedSite | undefined): CandidateFix[] {
  const { circuit } = q.scene;
  const strip = nets[0]?.strips.find((s) => !isRail(s) && s.includes('/')) ?? '';
  const from = freeHole(circuit.layout, strip);
  return [...(side === 'high' ? reachOf(circuit).plus : reachOf(circuit).minus)].flatMap((t): CandidateFix[] => {
    const to = freeRailHole(circuit, t, strip);
    if (!from || !to) return [];
    const ohms = (site && usualResistor(q, site)) ?? SERIES;
    const fix = limited ? addWire(q, from, to, side, 'add-wire') : addResistor(q, from, to, ohms);
    return [{ ...fix, ...(q.wants ? { claims: missingBetween(q, from, to, limited ? {} : { ohms }) } : {}) }];
  });
}

/** What the fix shows to be missing, between what stands in the row of the one hole and the other hole. */
function missingBetween({ scene: { circuit } }: ExplanationQuestion, from: string, to: string, data: Reason['data']): Reason {
  const strip = stripAt(from, circuit.plan.boards);
  const legs = circuit.layout.legs.filter((l) => l.strip === strip);
  const leg = legs.find((l) => circuit.chipById.has(l.part.id)) ?? legs[0];
  const point = (id: string) => ({ kind: 'point', id }) as const;
  const code = 'ohms' in data ? 'part-missing' : 'wire-missing';
  return { code, at: [leg ? toPin(leg) : point(from), point(to)], data };
}

/** An LED that is the wrong way round. */
export function reversedLed(site: LedSite): ExplanationStep {
  const { part } = site.placed;
  const at = [toLed(site)];
  const reason: Reason = { code: 'led-reversed', at, data: {} };
  const fixes =
    part.at === undefined || part.to === undefined
      ? []
      : [{ ...replacedPart('reverse-led', at, {}, part, { ...part, at: part.to, to: part.at }), claims: reason }];
  return explanationStep([reason], fixes);
}

export function moveLeg(leg: Leg, hole: string): CandidateFix | undefined {
  const { part } = leg;
  if (part.to === undefined) return undefined;
  return replacedPart('move-leg', [toPin(leg)], { hole }, part, leg.pin === '1' ? { ...part, at: hole } : { ...part, to: hole });
}

export function moveEnd({ wire, end }: WireEnd, hole: string): CandidateFix {
  return {
    code: 'move-end',
    at: [toWire(wire.id)],
    data: { hole, from: wire[end] },
    change: { op: 'replace', list: 'wires', before: wire, after: { ...wire, [end]: hole } },
  };
}

function addWire(q: ExplanationQuestion, from: string, to: string, side: Side, code: string): CandidateFix {
  const { plan } = q.scene.circuit;
  const wire = { id: namer(plan)('W'), from, to, colour: side === 'high' ? 'red' : 'black' };
  return { code, at: [], data: { from, to }, change: { op: 'insert', list: 'wires', item: wire, index: plan.wires.length } };
}

function addResistor(q: ExplanationQuestion, from: string, to: string, ohms: number): CandidateFix {
  const { plan } = q.scene.circuit;
  const part = { id: namer(plan)('R'), kind: resistorKind(q) ?? '', at: from, to, params: { ohms } };
  return {
    code: 'add-resistor',
    at: [],
    data: { from, to, ohms },
    change: { op: 'insert', list: 'parts', item: part, index: plan.parts.length },
  };
}

/** The kind of the resistors that already stand on this bench. */
const resistorKind = (q: ExplanationQuestion): string | undefined =>
  q.scene.circuit.plan.parts.find((p) => typeof p.params?.ohms === 'number' && p.to !== undefined)?.kind;
