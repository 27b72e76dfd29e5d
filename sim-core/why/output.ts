/** Why a chip's output does not give the level that an LED needs: off the bus, not the stored bit, or what a logic chip makes of its inputs, and so on to the output that drives these. */

import type { Leg } from '../board/layout.ts';
import { legOfPin, toPart, toPin } from '../findings/rule.ts';
import type { Level } from '../parts/part.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import { bitCount } from '../units/bit-count.ts';
import type { Reason } from './answer.ts';
import { whySupply } from './chip-supply.ts';
import { expectedPins } from './expected-address.ts';
import { because, type ExplanationQuestion, type ExplanationStep, explanationStep, type Side } from './explanation-step.ts';
import { whyBurnt, whyPin } from './pin.ts';
import { whyStoredBit } from './stored-bit.ts';

/** An output that something holds against its level carries more than this [A]; our choice. */
const OPPOSED = 1e-3;

/** output: position among the chip's outputs. */
export function whyOutput(question: ExplanationQuestion, chip: ChipSite, output: number, needed: Side): ExplanationStep {
  const { scene } = question;
  const id = chip.placed.part.id;
  const pin = chip.outputs[output];
  const reading = scene.chip(id);
  if (!pin || !reading) return explanationStep([]);
  const q: ExplanationQuestion = { ...question, asked: [...question.asked, pin.leg] };
  const level = reading.pins.find((p) => p.pin === pin.leg.pin)?.level;
  const at = [toPin(pin.leg)];
  const burnt = whyBurnt(q, chip, pin.leg);
  if (burnt) return burnt;
  if (reading.state.doing === 'no supply') return whySupply(q, chip, 'chip-no-supply');
  if (level === 'X' && hasTooLittle(q, chip)) return whySupply(q, chip, 'chip-supply-low');
  const blocked = whyDisabled(q, chip, at);
  if (blocked) return blocked;
  if (reading.state.doing === 'storing') return explanationStep([{ code: 'chip-storing', at: [toPart(chip.placed)], data: {} }]);
  if (level === (needed === 'high' ? 'H' : 'L')) {
    const amps = reading.pins.find((p) => p.pin === pin.leg.pin)?.amps ?? 0;
    // it gives what is needed, and nothing opposes it: what is wrong is behind it
    if (Math.abs(amps) < OPPOSED) return explanationStep([]);
    return explanationStep([
      { code: 'output-overpowered', at, data: { needed, volts: scene.at(scene.circuit.netOf(pin.leg).index), amps: Math.abs(amps) } },
    ]);
  }
  if (!chip.spec.word) return whyLogicLevel(q, chip, output, needed);
  const floating = whyUnknownAddress(q, chip);
  if (level === 'X' && floating) return floating;
  return whyStoredBit(q, chip, output, needed, at);
}

/** Has the chip less supply than makes its outputs certain, though not none? */
const hasTooLittle = (q: ExplanationQuestion, chip: ChipSite): boolean => {
  const reading = q.scene.chip(chip.placed.part.id);
  return reading !== undefined && reading.state.doing !== 'no supply' && reading.supply < chip.certainFrom;
};

/** An output on one of these nets that is undefined because its chip has too little supply. */
export function whyUncertain(q: ExplanationQuestion, nets: ReadonlySet<number>): ExplanationStep | undefined {
  const { circuit } = q.scene;
  const here = circuit.chips.find((chip) => hasTooLittle(q, chip) && chip.outputs.some((o) => nets.has(circuit.netOf(o.leg).index)));
  return here && whySupply(q, here, 'chip-supply-low');
}

/** What a logic chip makes of its inputs; the first input that alone would turn the output to what is needed is asked further. */
function whyLogicLevel(q: ExplanationQuestion, chip: ChipSite, output: number, needed: Side): ExplanationStep {
  const at = chip.outputs[output];
  if (!at) return explanationStep([]);
  const shown = q.scene.chip(chip.placed.part.id)?.pins.find((p) => p.pin === at.leg.pin);
  const data = { level: shown?.level ?? 'X', volts: shown?.volts ?? 0 };
  const now = inputLevels(q, chip);
  if (chip.spec.answers?.(output, (i) => now[i] ?? 'X') === undefined)
    return explanationStep([{ code: 'logic-stored', at: [toPin(at.leg), toPart(chip.placed)], data }]);
  // where one input alone does not bring the level: what keeps it from driving at all
  const driving = shown?.level === 'Z' ? inputThatTurns(q, chip, output, (level) => level === 'H' || level === 'L') : undefined;
  const turning = inputThatTurns(q, chip, output, drives(needed)) ?? driving;
  if (!turning) return explanationStep([{ code: 'logic-inputs', at: [toPin(at.leg), toPart(chip.placed)], data }]);
  const { leg, is, needs } = turning;
  return because(
    { code: 'logic-output', at: [toPin(at.leg), toPin(leg)], data: { ...data, is, needs } },
    whyInput(q, chip, leg, needs === 'H' ? 'high' : 'low'),
  );
}

const inputLevels = (q: ExplanationQuestion, chip: ChipSite): Level[] => {
  const pins = q.scene.chip(chip.placed.part.id)?.pins ?? [];
  return chip.inputs.map(({ leg }) => {
    const level = pins.find((p) => p.pin === leg.pin)?.level;
    return level === 'L' || level === 'H' ? level : 'X';
  });
};

interface TurningInput {
  readonly leg: Leg;
  readonly is: Level;
  readonly needs: 'H' | 'L';
}

const drives = (to: Side) => (level: Level | 'Z' | undefined) => level === (to === 'high' ? 'H' : 'L');

/** The first input of a logic chip that alone would bring the output to such a level. */
function inputThatTurns(
  q: ExplanationQuestion,
  chip: ChipSite,
  output: number,
  isMeant: (level: Level | 'Z' | undefined) => boolean,
): TurningInput | undefined {
  const now = inputLevels(q, chip);
  for (const [i, { leg }] of chip.inputs.entries())
    for (const needs of (['H', 'L'] as const).filter((l) => l !== now[i]))
      if (isMeant(chip.spec.answers?.(output, (k) => (k === i ? needs : (now[k] ?? 'X'))))) return { leg, is: now[i] ?? 'X', needs };
  return undefined;
}

interface Driver {
  readonly chip: ChipSite;
  readonly output: number;
}

/** The output on this pin's net that drives it, or of outputs that are all high-impedance the first; none that was asked already. */
function driverOf({ scene, asked }: ExplanationQuestion, leg: Leg): (Driver & { readonly drives: boolean }) | undefined {
  const net = scene.circuit.netOf(leg);
  const drivers = scene.circuit.chips.flatMap((chip) =>
    chip.outputs.flatMap((o, output) => {
      if (scene.circuit.netOf(o.leg) !== net || asked.includes(o.leg)) return [];
      const reading = scene.chip(chip.placed.part.id);
      const level = reading?.pins.find((p) => p.pin === o.leg.pin)?.level;
      // what a data pin reads while it waits for a byte it does not drive
      const listens = reading?.state.doing === 'ready to write' && chip.inputs.some((i) => i.leg === o.leg);
      return [{ chip, output, drives: level !== undefined && level !== 'Z' && !listens }];
    }),
  );
  return drivers.find((d) => d.drives) ?? drivers[0];
}

/** Why an input reads as it does: what another chip's output makes of it, or else what is wired to it. */
export function whyInput(q: ExplanationQuestion, chip: ChipSite, leg: Leg, needed: Side): ExplanationStep {
  const driver = driverOf(q, leg);
  const floats = q.scene.readings.nets[q.scene.circuit.netOf(leg).index]?.drive === 'floating';
  return driver && (driver.drives || floats) ? whyOutput(q, driver.chip, driver.output, needed) : whyPin(q, chip, leg, needed);
}

/** The first control input that keeps the outputs high-impedance, or is undefined. */
function whyDisabled(q: ExplanationQuestion, chip: ChipSite, at: Reason['at']): ExplanationStep | undefined {
  const pins = q.scene.chip(chip.placed.part.id)?.pins ?? [];
  for (const [name, level] of Object.entries(chip.spec.toRead ?? {})) {
    const input = chip.inputs.find((i) => i.name === name);
    const now = pins.find((p) => p.pin === input?.leg.pin);
    if (!input || !now || now.level === level) continue;
    const reason: Reason = {
      code: 'output-disabled',
      at: [...at, toPin(input.leg)],
      data: { name, level: now.level ?? 'X', needs: level, volts: now.volts },
    };
    return because(reason, whyInput(q, chip, input.leg, level === 'H' ? 'high' : 'low'));
  }
  return undefined;
}

/** Address inputs whose level is undefined. */
function whyUnknownAddress(q: ExplanationQuestion, chip: ChipSite): ExplanationStep | undefined {
  const reading = q.scene.chip(chip.placed.part.id);
  const name = chip.spec.word?.address.find((_, bit) => ((reading?.state.address?.unknown ?? 0) >> bit) & 1);
  const input = chip.inputs.find((i) => i.name === name);
  if (!input) return undefined;
  const meant = expectedPins(q, chip).find((p) => p.leg === input.leg)?.means ?? 'low';
  return because(
    {
      code: 'address-unknown',
      at: [toPin(input.leg)],
      data: { name: input.name, bytes: 2 ** bitCount(reading?.state.address?.unknown ?? 0) },
    },
    whyInput(q, chip, input.leg, meant),
  );
}

/** What gives a lit LED its current: an output, with the byte and the address behind it. */
export function whatOutputDrives(q: ExplanationQuestion, chip: ChipSite, output: number): readonly Reason[] {
  const pin = chip.outputs[output];
  const now = q.scene.chip(chip.placed.part.id)?.pins.find((p) => p.pin === pin?.leg.pin);
  if (!pin || !now) return [];
  return [
    {
      code: 'output-drives',
      at: [toPin(legOfPin(chip, pin.leg.pin) ?? pin.leg)],
      data: { level: now.level ?? 'X', volts: now.volts, amps: now.amps ?? 0 },
    },
    ...storedBehind(q, { chip, output }),
  ];
}

/** The stored bit that an output shows: its own memory's, or that of the memory which drives the input that decides it. */
function storedBehind(q: ExplanationQuestion, { chip, output }: Driver): readonly Reason[] {
  const pin = chip.outputs[output];
  const reading = q.scene.chip(chip.placed.part.id);
  if (!pin || !reading) return [];
  const { address, data } = reading.state;
  if (address) {
    const bit = chip.spec.word?.data.indexOf(pin.name) ?? output;
    const digits = Math.ceil((chip.spec.word?.address.length ?? 0) / 4);
    const byte = data?.value ?? 0;
    const at = [toPart(chip.placed), toPin(pin.leg)];
    return [{ code: 'stored-bit', at, data: { address: address.value, digits, byte, bit, value: (byte >> bit) & 1 } }];
  }
  const turning = inputThatTurns(q, chip, output, drives(reading.pins.find((p) => p.pin === pin.leg.pin)?.level === 'H' ? 'low' : 'high'));
  const behind: ExplanationQuestion = { ...q, asked: [...q.asked, pin.leg] };
  const driver = turning && driverOf(behind, turning.leg);
  return driver?.drives ? storedBehind(behind, driver) : [];
}
