/** Why an LED is as it is: from what is seen, back along false links only, to something a hand can touch; then the proof. */
import { setEntry } from '../document/changes.ts';
import { nearest, reachOf } from '../findings/resistive-reach.ts';
import { toLed, toPart, toPin, toWire } from '../findings/rule.ts';
import { forwardAt, makeScene } from '../findings/rule-context.ts';
import { reversed } from '../findings/rules/led/reversed.ts';
import type { Simulation } from '../run/api.ts';
import type { ChipSite, LedSite, SupplySite } from '../run/circuit/sites.ts';
import { type Brightness, isLit, LED_STEPS } from '../run/readout/readings.ts';
import { allTurns } from '../run/slices.ts';
import type { Reason, TestedFix, WhyAnswer } from './answer.ts';
import { BACKWARDS, limitingSupply, shortedSupply } from './chip-supply.ts';
import { whatLimits, whyWeak } from './current.ts';
import { type CandidateFix, type ExplanationQuestion, type ExplanationStep, explanationStep, newPart } from './explanation-step.ts';
import { intentionOf, lookWanted } from './intention.ts';
import { whyTerminal } from './led-terminal.ts';
import { meantCarrier } from './meant-carrier.ts';
import { freeHole, stripBeside } from './nearby-holes.ts';
import { moveLeg, reversedLed } from './open-circuit.ts';
import { whatOutputDrives, whyOutput, whyUncertain } from './output.ts';
import { testFix } from './tested-fix.ts';

/** A dark LED through which more than this flows [A] has a way for its current, only a bad one. */
const TRICKLE = 2e-6;

/**
 * LED: 'LED3' or 'DS1.a'. supposed: what the person believes to see; a false belief is refused, and the truth explained instead.
 * Throws if there is no such LED.
 */
export const whyLed = (sim: Simulation, led: string, supposed?: 'dark' | 'lit'): WhyAnswer => allTurns(whyLedInTurns(sim, led, supposed));

/** The same, in turns: yields the chain of causes as soon as it stands, then nothing between edits that are tried. */
export function* whyLedInTurns(sim: Simulation, led: string, supposed?: 'dark' | 'lit'): Generator<WhyAnswer | undefined, WhyAnswer> {
  const readings = sim.readings();
  const question: ExplanationQuestion = { sim, scene: makeScene(sim.circuit, readings), asked: [], led };
  const site = sim.circuit.leds.find((l) => l.id === led);
  const reading = readings.leds.find((l) => l.led === led);
  const damaged = site ? undefined : yield* damagedLed(question, led);
  if (damaged) return damaged;
  if (!site || !reading) throw new Error(`no LED ${led} on this bench`);
  const { brightness, amps } = reading;
  const q = withIntention(question, brightness);
  const refused = supposed === 'dark' && isLit(brightness) ? 'dark' : supposed === 'lit' && brightness === 'dark' ? 'lit' : undefined;
  const carrier = meantCarrier(q, led, brightness);
  const chain =
    (brightness === 'unknown' && whyUncertain(q, netsInReach(q, site))) ||
    (brightness === 'dim' || (brightness === 'dark' && amps > TRICKLE)
      ? (limitingSupply(q) ?? whyWeak(q, site, amps))
      : isLit(brightness)
        ? whyLit(q, site)
        : whyDark(q, site));
  const answer: WhyAnswer = {
    led,
    brightness,
    amps,
    reasons: [...(isReversal(carrier) ? [] : [...chain.reasons, ...asWanted(q, chain.reasons)]), ...(carrier?.reasons ?? [])],
    ...(refused ? { refused } : {}),
  };
  yield answer;
  const { proof, instead } = yield* testFix(q, led, brightness, chain.fixes, carrier?.fixes);
  return { ...answer, ...(carrier ? {} : { reasons: withClaim(answer.reasons, proof) }), ...(proof ? { proof, instead } : {}) };
}

/** The LED is the wrong way round: nothing behind it is to blame. */
const isReversal = (carrier: ExplanationStep | undefined): boolean => carrier?.reasons.every((r) => r.code === 'meant-reversed') ?? false;

/** What the table wants of the LED that is asked about. */
function withIntention(q: ExplanationQuestion, brightness: Brightness): ExplanationQuestion {
  const wants = lookWanted(intentionOf(q), q.led);
  return { ...q, wants, isRight: wants === (isLit(brightness) ? 'lit' : brightness) };
}

/** Gates end at the switches of this row: that is what the table wants of them. */
const AT_SWITCHES: ReadonlySet<string> = new Set(['pin-by-switch', 'logic-inputs']);

function asWanted(q: ExplanationQuestion, reasons: readonly Reason[]): readonly Reason[] {
  const { wanted } = q.scene.circuit.plan;
  const output = intentionOf(q)?.outputs.get(q.led ?? '') ?? -1;
  if (!q.isRight || !AT_SWITCHES.has(reasons.at(-1)?.code ?? '')) return [];
  return [{ code: 'as-wanted', at: [], data: { rule: wanted?.rules[output] ?? '', name: wanted?.outputs[output]?.name ?? '' } }];
}

/** Where a path ends; what is known of its end takes its place. */
const OPEN: ReadonlySet<string> = new Set(['not-connected', 'wire-end-alone', 'leg-alone']);

/** The chain ends at what a tested fix shows to be so. */
function withClaim(reasons: readonly Reason[], proof: TestedFix | undefined): readonly Reason[] {
  const claim = proof?.claims;
  if (!claim) return reasons;
  const { rows } = proof;
  // what was asked for supposed the LED to be the right way round
  if (claim.code === 'led-reversed') return [claim];
  const data = { ...claim.data, everyRow: rows && rows.right === rows.all ? 1 : 0 };
  return [...reasons.filter((r) => !OPEN.has(r.code) && r.code !== claim.code), { ...claim, data }];
}

/** A damaged part has no LED any more, or one LED less, but a person may still ask about it. */
function* damagedLed(q: ExplanationQuestion, led: string): Generator<WhyAnswer | undefined, WhyAnswer | undefined> {
  const part = q.scene.circuit.plan.parts.find((p) => p.id === led.split('.')[0]);
  const damage = part?.damaged;
  if (!part || !damage) return undefined;
  const wholePart = { kind: 'part', id: part.id } as const;
  const at = damage.pins ? ([{ kind: 'led', id: led }, wholePart] as const) : ([wholePart] as const);
  const reason: Reason = { code: 'part-damaged', at, data: { by: damage.by, measured: damage.measured, limit: damage.limit } };
  const answer = { led, brightness: 'dark', amps: 0, reasons: [reason] } as const;
  yield answer;
  const { proof } = yield* testFix(q, led, 'dark', [newPart(q, part)]);
  return { ...answer, ...(proof ? { proof } : {}) };
}

function whyDark(q: ExplanationQuestion, site: LedSite): ExplanationStep {
  const { circuit, powered } = q.scene;
  if (!powered || offSupply(q, site)) return supplyOff(q, offSupply(q, site));
  const short = shortedSupply(q);
  if (short) return short;
  const [anode, cathode] = [circuit.netOf(site.anode), circuit.netOf(site.cathode)];
  if (anode === cathode) return bridged(q, site);
  if ([anode, cathode].every((net) => net.legs.length === 1 && net.ends.length === 0))
    return explanationStep([{ code: 'led-not-connected', at: [toLed(site), toPin(site.anode), toPin(site.cathode)], data: {} }]);
  const backwards = q.scene.readings.chips.find((c) => c.supply < -BACKWARDS);
  if (backwards)
    return explanationStep([{ code: 'supply-reversed', at: [{ kind: 'part', id: backwards.part }], data: { volts: backwards.supply } }]);
  const isReversed = reversed(circuit, site) ? reversedLed(site) : undefined;
  // a display cannot be turned round leg by leg: that its segment is the wrong way round shows in its voltage
  if (isReversed && isReversed.fixes.length === 0 && (q.scene.led(site)?.volts ?? 0) < -BACKWARDS) return isReversed;
  const steps = [whyTerminal(q, anode, 'high', site), whyTerminal(q, cathode, 'low', site)].filter((a) => a.reasons.length > 0);
  if (steps.length === 0) return tooLittleVoltage(q, site);
  return explanationStep(
    steps.flatMap((a) => a.reasons),
    [...(isReversed?.fixes ?? []), ...steps.flatMap((a) => a.fixes)],
  );
}

/** A supply that is off and to whose terminals this LED is connected, while no other feeds it. */
function offSupply(q: ExplanationQuestion, site: LedSite): SupplySite | undefined {
  const { circuit, readings } = q.scene;
  const reached = netsInReach(q, site);
  const attached = circuit.supplies.filter((s) => reached.has(circuit.netOf(s.plus).index) || reached.has(circuit.netOf(s.minus).index));
  const isOn = (s: SupplySite) => readings.supplies.some((r) => r.part === s.placed.part.id && r.on);
  return attached.some(isOn) ? undefined : attached[0];
}

/** Nets that either of its legs is connected to, by resistors too. */
function netsInReach({ scene: { circuit } }: ExplanationQuestion, { anode, cathode }: LedSite): ReadonlySet<number> {
  const reach = reachOf(circuit);
  return new Set([anode, cathode].flatMap((leg) => [...reach.from(circuit.netOf(leg).index, 'no LEDs').keys()]));
}

function supplyOff(q: ExplanationQuestion, off: SupplySite | undefined): ExplanationStep {
  const { circuit } = q.scene;
  const supply = off ?? circuit.supplies[0];
  if (!supply) return explanationStep([{ code: 'no-supply-here', at: [], data: {} }]);
  const id = supply.placed.part.id;
  const change = setEntry(q.sim.plan(), 'switches', id, [true]);
  const fix: CandidateFix = { code: 'switch-on', at: [toPart(supply.placed)], data: {}, change };
  return explanationStep([{ code: 'supply-off', at: [toPart(supply.placed)], data: {} }], [fix]);
}

/** Both legs on one net: in one row, or joined by wires. */
function bridged(q: ExplanationQuestion, site: LedSite): ExplanationStep {
  const { layout, plan } = q.scene.circuit;
  const at = [toLed(site), toPin(site.anode), toPin(site.cathode)];
  if (site.anode.strip !== site.cathode.strip) {
    const net = q.scene.circuit.netOf(site.anode);
    const wires = [...new Set(net.ends.map((e) => e.wire))];
    const fixes = wires.map(
      (wire): CandidateFix => ({
        code: 'remove-wire',
        at: [toWire(wire.id)],
        data: {},
        change: { op: 'remove', list: 'wires', item: wire, index: plan.wires.indexOf(wire) },
      }),
    );
    return explanationStep([{ code: 'led-bridged', at, data: { wires: wires.length } }], fixes);
  }
  const fixes = [1, -1, 2, -2].flatMap((by): CandidateFix[] => {
    const strip = stripBeside(site.cathode.strip, by);
    const hole = strip && freeHole(layout, strip);
    const fix = hole ? moveLeg(site.cathode, hole) : undefined;
    return fix ? [fix] : [];
  });
  return explanationStep([{ code: 'led-shorted', at, data: { strip: site.anode.strip } }], fixes);
}

/** Both sides are fed as they should be, and it is still dark. */
function tooLittleVoltage(q: ExplanationQuestion, site: LedSite): ExplanationStep {
  const reading = q.scene.led(site);
  return explanationStep([
    {
      code: 'too-little-voltage',
      at: [toLed(site)],
      data: { volts: reading?.volts ?? 0, needs: forwardAt(site.junction, LED_STEPS.lit), supply: q.scene.volts },
    },
  ]);
}

function whyLit(q: ExplanationQuestion, site: LedSite): ExplanationStep {
  const { scene } = q;
  const { circuit } = scene;
  const reach = reachOf(circuit);
  const drivers = [site.anode, site.cathode].flatMap((leg) => {
    const reached = reach.from(circuit.netOf(leg).index, 'no LEDs', (c) => !scene.closed(c));
    const output = nearest(reached, reach.outputs);
    for (const chip of circuit.chips)
      for (const [i, o] of chip.outputs.entries()) {
        const pull = scene.chip(chip.placed.part.id)?.pins.find((p) => p.pin === o.leg.pin);
        if (output && circuit.netOf(o.leg).index === output.net && pull && Math.abs(pull.amps) > 0) return [{ chip, i, level: pull.level }];
      }
    return [];
  });
  const fed = { code: 'fed-by-supply', at: [toPin(site.anode)], data: { volts: scene.at(circuit.netOf(site.anode).index) } };
  if (q.wants === 'dark' && drivers.length > 0) {
    // asked on as a dark one is: what would have to be otherwise at the output
    const steps = drivers.map(({ chip, i, level }) => whyOutput(q, chip, i, level === 'H' ? 'low' : 'high'));
    return explanationStep(
      steps.flatMap((step, k) => [...whatOutputDrives(q, drivers[k]?.chip as ChipSite, drivers[k]?.i ?? 0).slice(0, 1), ...step.reasons]),
      steps.flatMap((step) => step.fixes),
    );
  }
  const reasons = drivers.flatMap(({ chip, i }) => whatOutputDrives(q, chip, i));
  const limits = whatLimits(q, site);
  return explanationStep([...(reasons.length > 0 ? reasons : [fed]), ...limits.reasons], limits.fixes);
}
