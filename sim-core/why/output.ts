/** Why a chip's output does not give the level that an LED needs: off the bus, another byte, another bit, or what a logic chip makes of its inputs. */

import type { Plan } from '../../shared/plan.ts';
import { storing, withByte } from '../document/memory-writes.ts';
import { legOfPin, toPart, toPin, toWire } from '../findings/rule.ts';
import type { Level } from '../parts/part.ts';
import type { ChipSite, ContactSite } from '../run/circuit/sites.ts';
import { bitCount } from '../units/bit-count.ts';
import type { Reason } from './answer.ts';
import { type ExpectedPin, expectedPins } from './expected-address.ts';
import {
  because,
  type CandidateFix,
  type ExplanationQuestion,
  type ExplanationStep,
  explanationStep,
  type Side,
} from './explanation-step.ts';
import { freeHole } from './nearby-holes.ts';
import { moveEnd, whyOpen } from './open-circuit.ts';
import { setPole, whyBurnt, whyPin } from './pin.ts';

/** output: position among the chip's outputs. */
export function whyOutput(q: ExplanationQuestion, chip: ChipSite, output: number, needed: Side): ExplanationStep {
  const { scene } = q;
  const id = chip.placed.part.id;
  const pin = chip.outputs[output];
  const reading = scene.chip(id);
  if (!pin || !reading) return explanationStep([]);
  const level = reading.pins.find((p) => p.pin === pin.leg.pin)?.level;
  const at = [toPin(pin.leg)];
  const burnt = whyBurnt(q, chip, pin.leg);
  if (burnt) return burnt;
  if (reading.state.doing === 'no supply') return whyNoSupply(q, chip);
  const blocked = whyDisabled(q, chip, at);
  if (blocked) return blocked;
  if (reading.state.doing === 'storing') return explanationStep([{ code: 'chip-storing', at: [toPart(chip.placed)], data: {} }]);
  if (level === (needed === 'high' ? 'H' : 'L')) {
    const amps = reading.pins.find((p) => p.pin === pin.leg.pin)?.amps ?? 0;
    return explanationStep([
      { code: 'output-overpowered', at, data: { needed, volts: scene.at(scene.circuit.netOf(pin.leg).index), amps: Math.abs(amps) } },
    ]);
  }
  if (!chip.spec.word) return whyLogicLevel(q, chip, output, needed);
  const floating = whyUnknownAddress(q, chip);
  if (level === 'X' && floating) return floating;
  return whyStoredBit(q, chip, output, needed, at);
}

function whyNoSupply(q: ExplanationQuestion, chip: ChipSite): ExplanationStep {
  const { circuit } = q.scene;
  const volts = q.scene.chip(chip.placed.part.id)?.supply ?? 0;
  const reason: Reason = {
    code: 'chip-no-supply',
    at: [toPart(chip.placed), toPin(chip.supply.leg), toPin(chip.ground.leg)],
    data: { volts },
  };
  const high = q.scene.at(circuit.netOf(chip.supply.leg).index) > q.scene.volts / 2;
  return because(
    reason,
    high ? whyOpen(q, circuit.netOf(chip.ground.leg), 'low', 'pin') : whyOpen(q, circuit.netOf(chip.supply.leg), 'high', 'pin'),
  );
}

/** What a logic chip makes of its inputs; the first input that alone would turn the output to what is needed is asked further. */
function whyLogicLevel(q: ExplanationQuestion, chip: ChipSite, output: number, needed: Side): ExplanationStep {
  const pins = q.scene.chip(chip.placed.part.id)?.pins ?? [];
  const at = chip.outputs[output];
  const { answers } = chip.spec;
  if (!at) return explanationStep([]);
  const shown = pins.find((p) => p.pin === at.leg.pin);
  const now = chip.inputs.map(({ leg }): Level => {
    const level = pins.find((p) => p.pin === leg.pin)?.level;
    return level === 'L' || level === 'H' ? level : 'X';
  });
  const data = { level: shown?.level ?? 'X', volts: shown?.volts ?? 0 };
  if (answers?.(output, (i) => now[i] ?? 'X') === undefined)
    return explanationStep([{ code: 'logic-stored', at: [toPin(at.leg), toPart(chip.placed)], data }]);
  for (const [i, input] of chip.inputs.entries())
    for (const other of (['H', 'L'] as const).filter((l) => l !== now[i]))
      if (answers(output, (k) => (k === i ? other : (now[k] ?? 'X'))) === (needed === 'high' ? 'H' : 'L')) {
        const reason: Reason = {
          code: 'logic-output',
          at: [toPin(at.leg), toPin(input.leg)],
          data: { ...data, is: now[i] ?? 'X', needs: other },
        };
        return because(reason, whyPin(q, chip, input.leg, other === 'H' ? 'high' : 'low'));
      }
  return explanationStep([{ code: 'logic-inputs', at: [toPin(at.leg), toPart(chip.placed)], data }]);
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
    return because(reason, whyPin(q, chip, input.leg, level === 'H' ? 'high' : 'low'));
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
    whyPin(q, chip, input.leg, meant),
  );
}

function whyStoredBit(q: ExplanationQuestion, chip: ChipSite, output: number, needed: Side, at: Reason['at']): ExplanationStep {
  const { scene } = q;
  const { plan } = scene.circuit;
  const id = chip.placed.part.id;
  const state = scene.chip(id)?.state;
  const address = state?.address?.value ?? 0;
  const byte = state?.data?.value ?? 0;
  const bit = chip.spec.word?.data.indexOf(chip.outputs[output]?.name ?? '') ?? output;
  const unknown = ((state?.data?.unknown ?? 0) >> bit) & 1;
  const digits = Math.ceil((chip.spec.word?.address.length ?? 0) / 4);
  const stored: Reason = {
    code: unknown ? 'bit-uncertain' : 'stored-bit',
    at: [toPart(chip.placed), ...at],
    data: { address, digits, byte, bit, value: needed === 'high' ? 0 : 1 },
  };

  const expected = expectedPins(q, chip);
  const wrongPins = expected.filter((p) => ((address >> p.bit) & 1) !== (p.means === 'high' ? 1 : 0));
  const [wrongPin] = wrongPins;
  if (wrongPin) {
    const meant = expected.reduce((a, p) => (p.means === 'high' ? a | (1 << p.bit) : a & ~(1 << p.bit)), address);
    const reason: Reason = {
      code: 'wrong-address',
      at: [toPin(wrongPin.leg), toPart(wrongPin.contact.placed)],
      data: {
        address,
        meant,
        digits,
        name: chip.inputs.find((i) => i.leg === wrongPin.leg)?.name ?? '',
        input: wrongPin.name,
        reads: wrongPin.means === 'high' ? 'L' : 'H',
        pole: wrongPin.contact.pole + 1,
        closed: scene.closed(wrongPin.contact) ? 1 : 0,
      },
    };
    const cause = wrongPin.wiredTo ? wrongPole(q, wrongPin, wrongPin.wiredTo) : whyPin(q, chip, wrongPin.leg, wrongPin.means);
    return { reasons: [stored, reason, ...cause.reasons], fixes: cause.fixes };
  }

  const line = plan.wanted?.outputs.findIndex((o) => o.pin === `${id}.${chip.outputs[output]?.name}`) ?? -1;
  const row = expected.length > 0 && plan.wanted ? wantedRow(q, chip, address) : undefined;
  const wants = row === undefined ? undefined : wantedBit(plan.wanted, row, line);
  if (wants === (needed === 'high' ? 1 : 0) || unknown)
    return explanationStep(
      [
        stored,
        ...(wants === undefined ? [] : [{ code: 'not-as-wanted', at: [toPart(chip.placed)], data: { address, digits, bit, wants } }]),
      ],
      [storeBit(q, chip, address, byte, bit, needed)],
    );
  const rule = plan.wanted?.rules[line] ?? '';
  const reasons =
    wants === undefined ? [stored] : [stored, { code: 'as-wanted', at: [], data: { rule, name: plan.wanted?.outputs[line]?.name ?? '' } }];
  return explanationStep(
    reasons,
    expected.map((p) => setPole(q, p.contact, !scene.closed(p.contact))),
  );
}

/** The pin's wire goes to another pole than the one that stands for it. */
function wrongPole(q: ExplanationQuestion, wrongPin: ExpectedPin, other: ContactSite): ExplanationStep {
  const { circuit } = q.scene;
  const net = circuit.netOf(wrongPin.leg);
  const wrong = other.legs.find((l) => circuit.netOf(l) === net)?.strip;
  const side = other.legs.findIndex((l) => circuit.netOf(l) === net);
  const right = wrongPin.contact.legs[side === 1 ? 1 : 0].strip;
  const hole = freeHole(circuit.layout, right);
  const ends = circuit.layout.ends.filter((e) => e.strip === wrong);
  const at = [toPin(wrongPin.leg), toPart(other.placed), ...ends.slice(0, 1).map((e) => toWire(e.wire.id))];
  const data = { pole: other.pole + 1, meant: wrongPin.contact.pole + 1 };
  return explanationStep([{ code: 'pin-at-other-pole', at, data }], hole ? ends.map((e) => moveEnd(e, hole)) : []);
}

/** The row of the wanted table that this address stands for. */
function wantedRow(q: ExplanationQuestion, chip: ChipSite, address: number): number {
  const names = chip.spec.word?.address ?? [];
  return (q.scene.circuit.plan.wanted?.inputs ?? []).reduce(
    (row, w, i) => row | (((address >> names.indexOf(w.pin.slice(w.pin.indexOf('.') + 1))) & 1) << i),
    0,
  );
}

/** The level that the table asks of an output's pin in this row, as a bit; undefined where any will do. */
function wantedBit(wanted: Plan['wanted'], row: number, line: number): number | undefined {
  const output = wanted?.outputs[line];
  if (!wanted || !output || ((wanted.dontCare?.[row] ?? 0) >> line) & 1) return undefined;
  const says = ((wanted.rows[row] ?? 0) >> line) & 1;
  return output.activeLow ? 1 - says : says;
}

/** One byte of the image changed in one bit. */
function storeBit(q: ExplanationQuestion, chip: ChipSite, address: number, byte: number, bit: number, needed: Side): CandidateFix {
  const id = chip.placed.part.id;
  const plan = q.sim.plan();
  const value = needed === 'high' ? byte | (1 << bit) : byte & ~(1 << bit);
  const after = withByte(plan.memories[id], address, value);
  return { code: 'store-byte', at: [toPart(chip.placed)], data: { address, value, bit }, change: storing(plan, id, after, [address]) };
}

/** What gives a lit LED its current: a data pin, with the byte and the address behind it. */
export function whatOutputDrives(q: ExplanationQuestion, chip: ChipSite, output: number): readonly Reason[] {
  const pin = chip.outputs[output];
  const reading = q.scene.chip(chip.placed.part.id);
  if (!pin || !reading) return [];
  const { state } = reading;
  const now = reading.pins.find((p) => p.pin === pin.leg.pin);
  const bit = chip.spec.word?.data.indexOf(pin.name) ?? output;
  const digits = Math.ceil((chip.spec.word?.address.length ?? 0) / 4);
  return [
    {
      code: 'output-drives',
      at: [toPin(legOfPin(chip, pin.leg.pin) ?? pin.leg)],
      data: { level: now?.level ?? 'X', volts: now?.volts ?? 0, amps: now?.amps ?? 0 },
    },
    ...(state.address
      ? [
          {
            code: 'stored-bit',
            at: [toPart(chip.placed), toPin(pin.leg)],
            data: { address: state.address.value, digits, byte: state.data?.value ?? 0, bit, value: ((state.data?.value ?? 0) >> bit) & 1 },
          },
        ]
      : []),
  ];
}
