/** Why a memory reads this row and not another: which input sets which address bit, at how many volts, and what holds the first bit that differs. */
import { toPart, toPin } from '../findings/rule.ts';
import type { ChipInput, ChipSite } from '../run/circuit/sites.ts';
import type { PinReading } from '../run/readout/readings.ts';
import { partlyHexAddress } from '../units/hex.ts';
import type { Chain, Link, Reason } from './answer.ts';
import { type ExpectedPin, expectedPins } from './expected-address.ts';
import type { ExplanationQuestion } from './explanation-step.ts';
import { whyOutput } from './output.ts';
import { whyPinLevel } from './pin-level.ts';
import { wrongPole } from './stored-bit.ts';

/** An address pin with what it reads and the input that is meant to set it. */
interface AddressBit {
  readonly bit: number;
  readonly input: ChipInput;
  readonly reading: PinReading;
  readonly expected?: ExpectedPin;
}

/** row: the levels that the table's inputs would have, the first input first, '01100'; or an address, '0x006'. */
export function whyRow(q: ExplanationQuestion, chip: ChipSite, row?: string): Chain {
  const at = [toPart(chip.placed)];
  const reading = q.scene.chip(chip.placed.part.id);
  const address = reading?.state.address;
  if (!address || reading.state.doing === 'no supply')
    return [{ code: 'row-none', at, data: {} }, ...whyOutput(q, chip, 0, 'high').reasons];
  const bits = addressBits(q, chip);
  const now = rowOf(q, bits);
  const headline: Reason = {
    code: 'row-now',
    at,
    data: { address: partlyHexAddress(address), ...(now === undefined ? {} : { row: now }) },
  };
  const levels = bits.flatMap((b) => (b.expected ? [ofInput(q, b, b.expected)] : []));
  if (row === undefined) return [headline, ...levels, ...others(bits), ...bits.flatMap((b) => notAsMeant(q, b))];
  const differs = bits.find((b) => wantedLevel(q, b, row) !== undefined && wantedLevel(q, b, row) !== b.reading.level);
  if (!differs) return [headline, { code: 'row-already', at, data: { asked: row } }, ...others(bits)];
  const { input, reading: is, expected } = differs;
  const reason: Reason = {
    code: 'row-differs',
    at: [toPin(input.leg)],
    data: {
      asked: row,
      is: is.level ?? 'X',
      wants: wantedLevel(q, differs, row) ?? 'X',
      volts: is.volts,
      ...(expected ? { input: expected.name } : {}),
    },
  };
  return [headline, reason, ...behind(q, differs)];
}

function addressBits(q: ExplanationQuestion, chip: ChipSite): readonly AddressBit[] {
  const expected = expectedPins(q, chip);
  const pins = q.scene.chip(chip.placed.part.id)?.pins ?? [];
  return (chip.spec.word?.address ?? []).flatMap((name, bit): AddressBit[] => {
    const input = chip.inputs.find((i) => i.name === name);
    const reading = pins.find((p) => p.pin === input?.leg.pin);
    const meant = expected.find((e) => e.leg === input?.leg);
    return input && reading ? [{ bit, input, reading, ...(meant ? { expected: meant } : {}) }] : [];
  });
}

/** The bit of each of the table's inputs, first input first; undefined without a table, or where one is undefined. */
function rowOf({ scene }: ExplanationQuestion, bits: readonly AddressBit[]): string | undefined {
  const digits = (scene.circuit.plan.wanted?.inputs ?? []).map(({ name }) => bits.find((b) => b.expected?.name === name)?.reading.level);
  return digits.length > 0 && digits.every((d) => d === 'L' || d === 'H') ? digits.map((d) => (d === 'H' ? '1' : '0')).join('') : undefined;
}

function wantedLevel({ scene }: ExplanationQuestion, { bit, expected }: AddressBit, row: string): 'L' | 'H' | undefined {
  if (row.startsWith('0x')) return (Number.parseInt(row, 16) >> bit) & 1 ? 'H' : 'L';
  const digit = row[(scene.circuit.plan.wanted?.inputs ?? []).findIndex(({ name }) => name === expected?.name)];
  return digit === undefined ? undefined : digit === '1' ? 'H' : 'L';
}

const ofInput = ({ scene }: ExplanationQuestion, { input, reading }: AddressBit, { name, contact, wiredTo }: ExpectedPin): Reason => {
  const own = wiredTo ?? contact;
  return {
    code: 'row-bit',
    at: [toPin(input.leg), { kind: 'pole', id: `${own.placed.part.id}.${own.pole + 1}` }],
    data: { input: name, level: reading.level ?? 'X', volts: reading.volts, closed: scene.closed(own) ? 1 : 0 },
  };
};

/** Address pins that no input of the table sets. */
function others(bits: readonly AddressBit[]): readonly Reason[] {
  const rest = bits.filter((b) => !b.expected);
  const of = (level: string) => rest.filter((b) => (b.reading.level ?? 'X') === level).map((b) => toPin(b.input.leg));
  return (['L', 'H', 'X'] as const).flatMap((level) =>
    of(level).length > 0 ? [{ code: 'row-others', at: of(level), data: { level } }] : [],
  );
}

/** A bit that is not what its switch means: what holds it. */
function notAsMeant(q: ExplanationQuestion, bit: AddressBit): readonly Link[] {
  const { expected, reading, input } = bit;
  const means = expected?.means === 'high' ? 'H' : 'L';
  if (!expected || reading.level === means) return [];
  const off: Reason = {
    code: 'row-bit-off',
    at: [toPin(input.leg), { kind: 'pole', id: `${expected.contact.placed.part.id}.${expected.contact.pole + 1}` }],
    data: { level: reading.level ?? 'X', means, closed: q.scene.closed(expected.contact) ? 1 : 0 },
  };
  return [off, ...behind(q, bit)];
}

function behind(q: ExplanationQuestion, { expected, input }: AddressBit): readonly Link[] {
  const [, ...chain] = whyPinLevel(q, toPin(input.leg).id);
  return expected?.wiredTo ? [...wrongPole(q, expected, expected.wiredTo).reasons, ...chain] : chain;
}
