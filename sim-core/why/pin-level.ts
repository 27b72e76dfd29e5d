/** Why a chip's pin has the level it has, or none: what drives it, what pulls it each way, or why nothing certain does. */
import { findingsOf } from '../findings/ask-rule.ts';
import type { Finding } from '../findings/finding.ts';
import { type Rule, toPart, toPin } from '../findings/rule.ts';
import type { RuleContext } from '../findings/rule-context.ts';
import { supplyOutOfRange } from '../findings/rules/chip/supply-out-of-range.ts';
import { inputBetweenLevels } from '../findings/rules/input/between-levels.ts';
import { inputFloating } from '../findings/rules/input/floating.ts';
import { busContention } from '../findings/rules/net/bus-contention.ts';
import { thresholdsOf } from '../parts/part.ts';
import type { ChipInput, ChipSite } from '../run/circuit/sites.ts';
import type { PinReading, Readings } from '../run/readout/readings.ts';
import { simulate } from '../run/simulation.ts';
import type { Chain, Link, Reason } from './answer.ts';
import { expectedPins } from './expected-address.ts';
import type { ExplanationQuestion } from './explanation-step.ts';
import { whyInput, whyOutput } from './output.ts';
import { whyBurnt } from './pin.ts';
import { pullers } from './wire-current.ts';

/** A pin's place on the bench and what it reads. */
interface AskedPin {
  readonly chip: ChipSite;
  readonly leg: ChipInput['leg'];
  readonly reading: PinReading;
  /** of an input that listens now */
  readonly input: ChipInput | undefined;
  /** place among the chip's outputs; −1: it is none */
  readonly output: number;
}

/** id: 'U1.5'. Throws if there is no such pin of a chip. */
export function whyPinLevel(q: ExplanationQuestion, id: string): Chain {
  const asked = pinAsked(q.scene, id);
  const headline = whatIs(q.scene, asked);
  if (asked.reading.level === null) return [headline, ...supplied(q, asked)];
  if (!asked.input) return [headline, ...drives(q, asked)];
  // a data pin listens for the byte to write while its output is disabled
  const disabled =
    asked.output < 0 ? [] : whyOutput(q, asked.chip, asked.output, 'high').reasons.filter((r) => r.code !== 'output-overpowered');
  return [headline, ...listens(q, asked, asked.input), ...disabled];
}

function pinAsked({ circuit, chip: readingOf }: RuleContext, id: string): AskedPin {
  for (const chip of circuit.chips)
    for (const leg of chip.placed.legs) {
      const read = readingOf(chip.placed.part.id);
      const reading = read?.pins.find((p) => p.pin === leg.pin);
      if (`${leg.part.id}.${leg.pin}` !== id || !read || !reading) continue;
      const output = chip.outputs.findIndex((o) => o.leg === leg);
      const input = chip.inputs.find((i) => i.leg === leg);
      const listens = output < 0 || (read.state.doing === 'ready to write' && reading.level !== 'Z');
      return { chip, leg, reading, input: listens ? input : undefined, output };
    }
  throw new Error(`no pin ${id} of a chip on this bench`);
}

/** The level in one sentence, with the voltage and the limits that make it so. */
function whatIs(scene: RuleContext, { chip, leg, reading, input, output }: AskedPin): Reason {
  const at = [toPin(leg)];
  const { level, volts } = reading;
  const supply = scene.chip(chip.placed.part.id)?.supply ?? 0;
  if (level === null) {
    const [least, most] = chip.spec.supplyRange;
    if (leg === chip.supply.leg && leg !== chip.ground.leg) return { code: 'pin-supply', at, data: { volts, least, most } };
    if (leg === chip.ground.leg) return { code: 'pin-ground', at, data: { volts: scene.at(scene.circuit.netOf(leg).index) } };
    return { code: 'pin-without-level', at, data: { volts } };
  }
  if (input) return { code: 'pin-reads', at, data: { level, volts, ...thresholdsOf(input.figures, supply) } };
  if (output >= 0 && level !== 'Z') return { code: 'pin-drives', at, data: { level, volts, amps: reading.amps } };
  return { code: 'pin-released', at, data: { volts } };
}

/** What the rule says of this place, in the rule's own words and figures. */
function found<Data extends object>(scene: RuleContext, rule: Rule<Data>, at: Reason['at'][number]): Finding<Data>[] {
  if (rule.reads !== 'moment') return [];
  return findingsOf(rule, rule.look(scene)).filter((f) => f.at.some((ref) => ref.kind === at.kind && ref.id === at.id));
}

const outOfRange = ({ scene }: ExplanationQuestion, chip: ChipSite): Link[] => found(scene, supplyOutOfRange, toPart(chip.placed));

/** Of a supply pin: what is amiss with the supply. */
function supplied(q: ExplanationQuestion, { chip }: AskedPin): readonly Link[] {
  const none = q.scene.chip(chip.placed.part.id)?.state.doing === 'no supply';
  return [...outOfRange(q, chip), ...(none ? whyOutput(q, chip, 0, 'high').reasons : [])];
}

function drives(q: ExplanationQuestion, { chip, leg, reading, output }: AskedPin): readonly Link[] {
  const contention = found(q.scene, busContention, toPin(leg));
  const { reasons } = whyOutput(q, chip, output, reading.level === 'H' ? 'low' : 'high');
  const low = reasons.some((r) => r.code === 'chip-supply-low') ? outOfRange(q, chip) : [];
  return [...contention, ...reasons.map((r) => asStored(r, reading.level)), ...low];
}

/** What a register holds from power-on is no level that it has taken. */
const asStored = (reason: Reason, level: PinReading['level']): Reason =>
  reason.code === 'logic-stored' && level === 'X' ? { ...reason, code: 'logic-never-set' } : reason;

function listens(q: ExplanationQuestion, { chip, leg, reading }: AskedPin, input: ChipInput): readonly Link[] {
  const { scene } = q;
  if (scene.chip(chip.placed.part.id)?.state.doing === 'no supply') return whyOutput(q, chip, 0, 'high').reasons;
  const floating = found(scene, inputFloating, toPin(leg));
  const floats = scene.readings.nets[scene.circuit.netOf(leg).index]?.drive === 'floating';
  if (!floats && reading.level === 'X') return undefinedInput(q, chip, input);
  const meant = reading.level === 'X' ? expectedPins(q, chip).find((p) => p.leg === leg)?.means : undefined;
  const { reasons } = whyInput({ ...q, asked: [...q.asked, leg] }, chip, input.leg, meant ?? (reading.level === 'H' ? 'low' : 'high'));
  if (floating.length > 0) return [...floating, ...reasons.filter((r) => r.code !== 'pin-floats')];
  return reasons.every((r) => r.code !== 'pin-by-switch' || turns(q, r)) ? untilHeld(reasons) : pullers(scene, scene.circuit.netOf(leg));
}

/** Does this pole decide the level of this pin? Tried on a copy. */
export function turns({ sim, scene }: ExplanationQuestion, { at: [pin, contact], data }: Reason): boolean {
  const id = contact?.id ?? '';
  const poles = (scene.readings.switches[id] ?? []).map((closed, k) => (k === Number(data.pole) - 1 ? !closed : closed));
  const plan = sim.plan();
  const other = simulate({ ...plan, switches: { ...plan.switches, [id]: poles } }, { still: true });
  return other.ok && levelOf(other.value.readings(), pin?.id) !== levelOf(scene.readings, pin?.id);
}

/** id: 'U1.5' */
export function levelOf({ chips }: Readings, id = ''): PinReading['level'] | undefined {
  const [part, pin] = id.split('.');
  return chips.find((c) => c.part === part)?.pins.find((p) => p.pin === pin)?.level;
}

/** An input that is held, and all the same undefined: between its levels, burnt open, or reached by an output that is undefined. */
function undefinedInput(q: ExplanationQuestion, chip: ChipSite, { leg, node }: ChipInput): readonly Link[] {
  const { scene } = q;
  const { circuit } = scene;
  const between = found(scene, inputBetweenLevels, toPin(leg));
  if (between.length > 0) return [...between, ...pullers(scene, circuit.netOf(leg))];
  const burnt = whyBurnt(q, chip, leg);
  if (burnt) return burnt.reasons;
  const block = circuit.partition.blockOf(node);
  for (const driver of circuit.chips)
    for (const [i, o] of driver.outputs.entries()) {
      const level = scene.chip(driver.placed.part.id)?.pins.find((p) => p.pin === o.leg.pin)?.level;
      const same = o.node === node || (block !== -1 && circuit.partition.blockOf(o.node) === block);
      if (level !== 'X' || !same || o.leg === leg) continue;
      return [{ code: 'pin-after-undefined', at: [toPin(leg), toPin(o.leg)], data: {} }, ...drivesUndefined(q, driver, i)];
    }
  return [];
}

const drivesUndefined = (q: ExplanationQuestion, chip: ChipSite, output: number): readonly Reason[] =>
  whyOutput(q, chip, output, 'high').reasons.map((r) => asStored(r, 'X'));

/** Of a level that is held by a resistor it is no fault that nothing else holds it. */
function untilHeld(reasons: readonly Reason[]): readonly Reason[] {
  const pulled = reasons.findIndex((r) => r.code === 'pin-pulled');
  return pulled < 0 ? reasons : reasons.slice(0, pulled + 1);
}
