/** What is measured at every part against its absolute maxima, and how a stress beyond one of them uses the part up. */
import type { PlanPart } from '../../../shared/plan.ts';
import { type Device, GROUND } from '../../devices/network.ts';
import { usualClampCurrent } from '../../parts/figures/clamps.ts';
import { compareTexts } from '../../units/text-list.ts';
import type { Circuit } from '../circuit/circuit.ts';
import { ownPin } from '../circuit/site-builder.ts';
import type { ChipPin, ChipSite, Placed } from '../circuit/sites.ts';

export type Damage = NonNullable<PlanPart['damaged']>;

/** One figure of one part that has an absolute maximum. */
export interface StressLimit {
  readonly part: string;
  readonly by: Damage['by'];
  /** the pin that alone is burnt by it; absent: the whole part is */
  readonly pin?: string;
  readonly limit: number;
  readonly law: Law;
  /** now, at these node voltages: in A, V or W, as `limit` */
  read(x: Float64Array): number;
}

/** Beyond its limit a part lives for seconds / ((measured/limit)^times − 1). */
export interface Law {
  readonly seconds: number;
  /** 2 where the heat grows with the square of what is measured, 1 where that is the heat itself */
  readonly times: 1 | 2;
}

/**
 * A sheet promises nothing above its maxima and says nothing of how long a part bears it, so all these times [s] are our choice, from memory. With
 * times = 1 or 2 the law says: damage comes once the heat beyond what is allowed has summed up to `seconds` of what is allowed.
 * The one figure read: sheets let one output of a memory give 100 mA for a second (SOURCES.md S3); from memory, of bipolar logic too. PIN keeps to that.
 */
const LED: Law = { seconds: 10, times: 2 };
const BODY: Law = { seconds: 10, times: 1 };
const SILICON: Law = { seconds: 10, times: 2 };
const PIN: Law = { seconds: 60, times: 2 };
/** Insulation gives way sooner than metal. */
const OXIDE: Law = { seconds: 0.5, times: 2 };
/** The diode between the supply pins heats the chip. */
const BACKWARDS: Law = { seconds: 5, times: 1 };
/** A wet capacitor turned round or over its voltage gasses for a while before it gives up. */
const WET: Law = { seconds: 120, times: 2 };
/** A supply pin this far below its ground pin [V] is reversed; from memory. */
const REVERSED = 0.3;

/** By the parts' names, so that of two that fail at one moment the same one is first whatever their order in the file. */
export function stressLimitsOf(circuit: Circuit): readonly StressLimit[] {
  const all = [
    ...ledGauges(circuit),
    ...[...circuit.placed.values()].flatMap((p) => passiveGauges(circuit, p)),
    ...circuit.chips.flatMap((c) => chipGauges(circuit, c)),
  ];
  return all.sort((a, b) => compareTexts(a.part, b.part));
}

const at = (x: Float64Array, node: number): number => (node === GROUND ? 0 : (x[node] as number));

function ledGauges({ network, leds }: Circuit): StressLimit[] {
  return leds.flatMap(({ placed, led, device, anode }): StressLimit[] => {
    const [a, b] = network.nodesOf(device);
    // of several in one body each fails alone
    const who = { part: placed.part.id, ...(led.name === '' ? {} : { pin: ownPin(placed, led, anode.pin) }) };
    return [
      { ...who, by: 'current', limit: led.mostCurrent.value, law: LED, read: (x) => network.current(device, x) },
      { ...who, by: 'reverse', limit: led.mostReverse.value, law: LED, read: (x) => at(x, b) - at(x, a) },
    ];
  });
}

function passiveGauges(circuit: Circuit, placed: Placed): StressLimit[] {
  const { network } = circuit;
  const { mostPower, mostCurrent, polar } = placed.kind;
  if ((placed.part.damaged && !placed.part.damaged.pins) || (!mostPower && !mostCurrent && !polar)) return [];
  const part = placed.part.id;
  const nodeOf = (leg: Placed['legs'][number] | undefined) => (leg ? circuit.nodeOf(leg) : GROUND);
  const ways = circuit.branches.filter((b) => b.placed === placed).map((b) => ({ device: b.device, ends: network.nodesOf(b.device) }));
  const found: StressLimit[] = [];
  if (mostPower && ways.length > 0)
    found.push({
      part,
      by: 'power',
      limit: mostPower.value,
      law: BODY,
      read(x) {
        let watts = 0;
        for (const { device, ends } of ways) watts += (at(x, ends[0]) - at(x, ends[1])) * network.current(device, x);
        return watts;
      },
    });
  const main = ways.find((w) => w.device.kind === 'junction' || w.device.kind === 'collector');
  if (mostCurrent && main)
    found.push({ part, by: 'current', limit: mostCurrent.value, law: SILICON, read: (x) => Math.abs(network.current(main.device, x)) });
  if (polar && ways.length > 0) {
    const plus = nodeOf(placed.legs.find((l) => l.pin === polar.plus));
    const minus = nodeOf(placed.legs.find((l) => l.pin === polar.minus));
    found.push({ part, by: 'reverse', limit: polar.mostReverse.value, law: WET, read: (x) => at(x, minus) - at(x, plus) });
    found.push({ part, by: 'voltage', limit: polar.most(placed.params).value, law: WET, read: (x) => at(x, plus) - at(x, minus) });
  }
  return found;
}

function chipGauges(circuit: Circuit, chip: ChipSite): StressLimit[] {
  const { network } = circuit;
  const { placed, spec, supply, ground, outputs } = chip;
  const part = placed.part.id;
  const above = (x: Float64Array, node: number) => at(x, node) - at(x, ground.node);
  const found: StressLimit[] = [{ part, by: 'reverse', limit: REVERSED, law: BACKWARDS, read: (x) => -above(x, supply.node) }];
  if (spec.mostSupply) found.push({ part, by: 'supply', limit: spec.mostSupply.value, law: OXIDE, read: (x) => above(x, supply.node) });
  const { damageFactor = 1 } = spec;
  for (const { name, device } of outputs)
    found.push({
      part,
      by: 'output',
      pin: name,
      limit: damageFactor * spec.mostPinCurrent.value,
      law: PIN,
      read: (x) => Math.abs(network.current(device, x)),
    });
  for (const sign of [1, -1])
    found.push({
      part,
      by: 'package',
      limit: damageFactor * spec.mostPackageCurrent.value,
      law: PIN,
      read(x) {
        let amps = 0;
        for (const { device } of outputs) amps += Math.max(0, sign * network.current(device, x));
        return amps;
      },
    });
  const limit = (spec.mostClampCurrent ?? usualClampCurrent).value;
  for (const { pin, clamps } of clampsOf(circuit, chip))
    found.push({
      part,
      by: 'input',
      pin: pin.name,
      limit,
      law: PIN,
      read(x) {
        let amps = 0;
        for (const device of clamps) amps = Math.max(amps, network.current(device, x));
        return amps;
      },
    });
  for (const pin of [...chip.inputs, ...outputs, ...chip.marks].filter(once)) {
    const most = spec.mostVolts?.[pin.name];
    if (most && !chip.burnt.has(pin.name))
      found.push({ part, by: 'voltage', pin: pin.name, limit: most.value, law: OXIDE, read: (x) => above(x, pin.node) });
  }
  return found;
}

const once = (pin: ChipPin, i: number, all: readonly ChipPin[]): boolean => all.findIndex((p) => p.name === pin.name) === i;

/** The diodes from ground to each pin and from the pin to the supply; a pin without any is there too. */
export function clampsOf(
  circuit: Circuit,
  { placed, supply, ground, inputs, outputs, marks }: ChipSite,
): { pin: ChipPin; clamps: Device[] }[] {
  const clamps = circuit.branches.filter((b) => b.placed === placed && b.device.kind === 'clamp');
  return [...inputs, ...outputs, ...marks].filter(once).map((pin) => ({
    pin,
    clamps: clamps
      .filter(({ legs: [a, b] }) => (a === ground.leg && b === pin.leg) || (a === pin.leg && b === supply.leg))
      .map((b) => b.device),
  }));
}
