/** Why a net gets nothing: what is missing where its way ends, and what stands one row off. */
import type { Leg, WireEnd } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { namer } from '../document/edits/ids.ts';
import { reachOf } from '../findings/resistive-reach.ts';
import { toLed, toNet, toPart, toPin, toWire } from '../findings/rule.ts';
import type { LedSite } from '../run/circuit/sites.ts';
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

/** net: where the way ends that should lead to the supply's plus (high) or minus (low). of: whether an LED's current has to go that way, and which. */
export function whyOpen(q: ExplanationQuestion, net: Net, side: Side, of: 'led' | 'pin', site?: LedSite): ExplanationStep {
  const { circuit } = q.scene;
  const reach = reachOf(circuit);
  const reached = reach.from(net.index, 'no LEDs', (c) => !q.scene.closed(c));
  const nets = [...reached].sort((a, b) => b[1] - a[1]).map(([n]) => circuit.nets.all[n] as Net);
  return (
    railNotConnected(q, nets, side) ??
    oneRowOff(q, nets, side) ??
    otherLed(q, nets, side, site) ??
    legInWrongRow(q, net, side, site) ??
    (site && blocked(q, nets, side)) ??
    notConnected(q, nets, of === 'pin' || side === 'high' || Math.max(0, ...reached.values()) >= LIMITING, side)
  );
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
    return explanationStep([{ code: 'rail-not-connected', at: toNet(net), data: { strip: rail, side } }], fixes);
  }
  return undefined;
}

/** A leg or a wire's end that stands alone one or two rows beside where the way ends. */
function oneRowOff(q: ExplanationQuestion, nets: readonly Net[], side: Side): ExplanationStep | undefined {
  const { circuit } = q.scene;
  const { layout } = circuit;
  for (const net of nets)
    for (const by of MISSED_BY)
      for (const strip of net.strips) {
        const beside = stripBeside(strip, by);
        const legs = layout.legs.filter((l) => l.strip === beside);
        const ends = layout.ends.filter((e) => e.strip === beside);
        if (beside === undefined || legs.length + ends.length !== 1) continue;
        const hole = freeHole(layout, strip);
        const fix = hole && (legs[0] ? moveLeg(legs[0], hole) : ends[0] && moveEnd(ends[0], hole));
        if (!fix || nets.some((n) => n.strips.includes(beside))) continue;
        const thing = legs[0] ? toPin(legs[0]) : toWire(ends[0]?.wire.id ?? '');
        return explanationStep(
          [{ code: 'one-row-off', at: [thing, ...toNet(net)], data: { strip, beside, by: Math.abs(by), side } }],
          [{ ...fix, at: [thing] }],
        );
      }
  return undefined;
}

/** Another LED stands in the way: it is the wrong way round, or the way ends behind it. */
function otherLed(q: ExplanationQuestion, nets: readonly Net[], side: Side, site: LedSite | undefined): ExplanationStep | undefined {
  const { circuit } = q.scene;
  if (!site) return undefined;
  for (const other of circuit.leds) {
    if (other === site) continue;
    const [here, there] = side === 'low' ? [other.anode, other.cathode] : [other.cathode, other.anode];
    if (nets.includes(circuit.netOf(there)) && !nets.includes(circuit.netOf(here))) {
      const { part } = other.placed;
      if (part.at === undefined || part.to === undefined) continue;
      return reversedLed(other);
    }
  }
  return undefined;
}

/** The LED's own leg stands alone, and a row beside it wires somewhere. */
function legInWrongRow(q: ExplanationQuestion, net: Net, side: Side, site: LedSite | undefined): ExplanationStep | undefined {
  const { circuit } = q.scene;
  const leg = site && (side === 'high' ? site.anode : site.cathode);
  if (!leg || net.legs.length !== 1 || net.ends.length > 0) return undefined;
  for (const by of MISSED_BY) {
    const beside = stripBeside(leg.strip, by);
    const used = beside && circuit.nets.ofStrip.get(beside);
    const hole = beside && freeHole(circuit.layout, beside);
    const fix = used && hole ? moveLeg(leg, hole) : undefined;
    if (!fix || !beside || circuit.layout.legs.some((l) => l.strip === beside && l.part === leg.part)) continue;
    return explanationStep(
      [{ code: 'one-row-off', at: [toPin(leg)], data: { strip: beside, beside: leg.strip, by: Math.abs(by), side } }],
      [fix],
    );
  }
  return undefined;
}

/** Only a capacitor connects further, and it blocks DC. */
function blocked(q: ExplanationQuestion, nets: readonly Net[], side: Side): ExplanationStep | undefined {
  const { circuit } = q.scene;
  const branch = circuit.branches.find(
    (b) => b.device.kind === 'capacitor' && b.placed.kind.group === 'passive' && b.legs.some((l) => nets.includes(circuit.netOf(l))),
  );
  return branch && explanationStep([{ code: 'capacitor-in-path', at: [toPart(branch.placed)], data: { side } }]);
}

/** Nothing is near: a wire, or a resistor where nothing else would limit the current, is simply not there. */
function notConnected(q: ExplanationQuestion, nets: readonly Net[], limited: boolean, side: Side): ExplanationStep {
  const { circuit } = q.scene;
  const [end] = nets;
  const strip = end?.strips.find((s) => !isRail(s) && s.includes('/')) ?? '';
  const from = freeHole(circuit.layout, strip);
  const fixes = [...(side === 'high' ? reachOf(circuit).plus : reachOf(circuit).minus)].flatMap((t): CandidateFix[] => {
    const to = freeRailHole(circuit, t, strip);
    if (!from || !to) return [];
    return [limited ? addWire(q, from, to, side, 'add-wire') : addResistor(q, from, to)];
  });
  return explanationStep([{ code: 'not-connected', at: toNet(end), data: { strip, side } }], fixes);
}

/** An LED that is the wrong way round. */
export function reversedLed(site: LedSite): ExplanationStep {
  const { part } = site.placed;
  const at = [toLed(site)];
  const fixes =
    part.at === undefined || part.to === undefined
      ? []
      : [replacedPart('reverse-led', at, {}, part, { ...part, at: part.to, to: part.at })];
  return explanationStep([{ code: 'led-reversed', at, data: {} }], fixes);
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

function addResistor(q: ExplanationQuestion, from: string, to: string): CandidateFix {
  const { plan } = q.scene.circuit;
  const ohms = 330;
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
