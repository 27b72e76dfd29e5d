/** Why a memory's output has not the level that is needed: another address than was meant, another bit than the table wants, or what the table wants. */

import type { Plan } from '../../shared/plan.ts';
import { digitsByAddress, ERASED } from '../document/memory-rows.ts';
import { storing, withByte } from '../document/memory-writes.ts';
import { toPart, toPin, toWire } from '../findings/rule.ts';
import { storedDifferences } from '../findings/stored-differences.ts';
import { tablePins } from '../findings/table-pins.ts';
import type { ChipSite, ContactSite } from '../run/circuit/sites.ts';
import type { Reason } from './answer.ts';
import { exchanged } from './exchanged-wires.ts';
import { type ExpectedPin, expectedPins } from './expected-address.ts';
import { type CandidateFix, type ExplanationQuestion, type ExplanationStep, explanationStep, type Side } from './explanation-step.ts';
import { intentionOf } from './intention.ts';
import { freeHole } from './nearby-holes.ts';
import { moveEnd } from './open-circuit.ts';
import { setPole, whyPin } from './pin.ts';

interface StoredByte {
  readonly address: number;
  readonly byte: number;
  readonly bit: number;
}

/** output: position among the memory's outputs; at: its pin. */
export function whyStoredBit(q: ExplanationQuestion, chip: ChipSite, output: number, needed: Side, at: Reason['at']): ExplanationStep {
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
    const { reason, cause } = wrongAddress(q, chip, { address, digits, expected, wrongPin });
    return { reasons: [stored, reason, ...cause.reasons], fixes: cause.fixes };
  }
  const elsewhere = outsideTable(q, chip, address);
  if (elsewhere) {
    const { cause, name } = elsewhere;
    const data = { address, digits, name };
    return { reasons: [stored, { code: 'outside-table', at: [toPin(elsewhere.leg)], data }, ...cause.reasons], fixes: cause.fixes };
  }
  const line = plan.wanted?.outputs.findIndex((o) => o.pin === `${id}.${chip.outputs[output]?.name}`) ?? -1;
  const row = expected.length > 0 && plan.wanted ? wantedRow(q, chip, address) : undefined;
  const wants = row === undefined ? undefined : wantedBit(plan.wanted, row, line);
  if (wants === (needed === 'high' ? 1 : 0) || unknown)
    return explanationStep(
      [
        stored,
        ...(wants === undefined
          ? []
          : [
              {
                code: 'not-as-wanted',
                at: [toPart(chip.placed)],
                data: { address, digits, bit, wants, ...(byte === ERASED ? { erased: 1 } : {}) },
              },
            ]),
      ],
      storeFixes(q, chip, { address, byte, bit }, needed),
    );
  if (wants === undefined) return explanationStep([stored], poleFixes(q, expected));
  if (q.isRight) {
    const data = { rule: plan.wanted?.rules[line] ?? '', name: plan.wanted?.outputs[line]?.name ?? '' };
    return explanationStep([stored, { code: 'as-wanted', at: [], data }], poleFixes(q, expected));
  }
  return { reasons: [stored, ...otherColumn(q, chip, line)], fixes: exchanged(q) };
}

/** The first pin that reads otherwise than its pole is set. */
function wrongAddress(q: ExplanationQuestion, chip: ChipSite, { address, digits, expected, wrongPin }: ReadAddress) {
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
      closed: q.scene.closed(wrongPin.contact) ? 1 : 0,
    },
  };
  return { reason, cause: wrongPin.wiredTo ? wrongPole(q, wrongPin, wrongPin.wiredTo) : whyPin(q, chip, wrongPin.leg, wrongPin.means) };
}

interface ReadAddress {
  readonly address: number;
  readonly digits: number;
  readonly expected: readonly ExpectedPin[];
  readonly wrongPin: ExpectedPin;
}

const poleFixes = (q: ExplanationQuestion, expected: readonly ExpectedPin[]): CandidateFix[] =>
  expected.map((p) => setPole(q, p.contact, !q.scene.closed(p.contact)));

/** The bit is as its own column of the table wants, but the LED is to show another one. */
function otherColumn(q: ExplanationQuestion, chip: ChipSite, line: number): Reason[] {
  const { wanted } = q.scene.circuit.plan;
  const own = intentionOf(q)?.outputs.get(q.led ?? '');
  const [meant, here] = [wanted?.outputs[own ?? -1], wanted?.outputs[line]];
  if (!meant || !here || own === line) return [];
  const pinOf = (pin: string) => {
    const site = q.scene.circuit.chipById.get(pin.slice(0, pin.indexOf('.')));
    return site?.outputs.find((o) => o.name === pin.slice(pin.indexOf('.') + 1))?.leg;
  };
  const at = [pinOf(here.pin), pinOf(meant.pin)].flatMap((leg) => (leg ? [toPin(leg)] : []));
  return [{ code: 'other-output', at: [...at, toPart(chip.placed)], data: { shows: here.name, name: meant.name } }];
}

/** An address pin that the table does not use, high where nothing was written: the table stands where it is low. */
function outsideTable(q: ExplanationQuestion, chip: ChipSite, address: number) {
  const { circuit } = q.scene;
  const { wanted } = circuit.plan;
  const names = chip.spec.word?.address ?? [];
  const used = new Set(expectedPins(q, chip).map((p) => p.bit));
  const written = digitsByAddress(q.sim.plan().memories[chip.placed.part.id]);
  const over = names.flatMap((name, bit) => (!used.has(bit) && (address >> bit) & 1 ? [{ name, bit }] : []));
  const [first] = over;
  if (!wanted || !first || used.size < wanted.inputs.length || written.has(address)) return undefined;
  if (!written.has(over.reduce((a, { bit }) => a & ~(1 << bit), address))) return undefined;
  const leg = chip.inputs.find((i) => i.name === first.name)?.leg;
  return leg && { leg, name: first.name, cause: whyPin(q, chip, leg, 'low') };
}

/** The pin's wire goes to another pole than the one that stands for it. */
export function wrongPole(q: ExplanationQuestion, wrongPin: ExpectedPin, other: ContactSite): ExplanationStep {
  const { circuit } = q.scene;
  const net = circuit.netOf(wrongPin.leg);
  const wrong = other.legs.find((l) => circuit.netOf(l) === net)?.strip;
  const side = other.legs.findIndex((l) => circuit.netOf(l) === net);
  const right = wrongPin.contact.legs[side === 1 ? 1 : 0].strip;
  const hole = freeHole(circuit.layout, right);
  const ends = circuit.layout.ends.filter((e) => e.strip === wrong);
  const at = [...ends.slice(0, 1).map((e) => toWire(e.wire.id)), toPin(wrongPin.leg), toPart(other.placed)];
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

/** The byte that the table wants there, and all bytes that it wants where more than one differs; without a table the byte changed in one bit. */
function storeFixes(q: ExplanationQuestion, chip: ChipSite, { address, byte, bit }: StoredByte, needed: Side): CandidateFix[] {
  const id = chip.placed.part.id;
  const plan = q.sim.plan();
  const pins = tablePins(q.scene.circuit).find((p) => p.memory === id);
  const wrong = pins && plan.wanted ? storedDifferences(plan.wanted, pins, digitsByAddress(plan.memories[id])) : [];
  const flipped = needed === 'high' ? byte | (1 << bit) : byte & ~(1 << bit);
  const value = wrong.find((d) => d.address === address)?.wants ?? flipped;
  const stored = (cells: readonly { readonly address: number; readonly wants: number }[]) =>
    storing(
      plan,
      id,
      cells.reduce((image, c) => withByte(image, c.address, c.wants), plan.memories[id]),
      cells.map((c) => c.address),
    );
  const at = [toPart(chip.placed)];
  const one: CandidateFix = {
    code: 'store-byte',
    at,
    data: { address, value, bit, digits: Math.ceil((chip.spec.word?.address.length ?? 0) / 4) },
    change: stored([{ address, wants: value }]),
  };
  return wrong.length > 1 ? [{ code: 'store-table', at, data: { bytes: wrong.length }, change: stored(wrong) }, one] : [one];
}
