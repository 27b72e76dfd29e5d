/** A memory that holds other bytes than the plan's truth table wants: which row is the first, how many there are, and at which pins. */

import { grouped } from '../../../../shared/grouped.ts';
import type { Plan, PlanWanted } from '../../../../shared/plan.ts';
import { digitsByAddress, ERASED as ERASED_BYTE } from '../../../document/memory-rows.ts';
import { compareImages } from '../../../logic/compare/compare.ts';
import type { Bus } from '../../../logic/compare/disorder.ts';
import type { MemoryImage } from '../../../logic/memory-image.ts';
import { addressOf } from '../../../logic/pin-map.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { ChipSite } from '../../../run/circuit/sites.ts';
import { PIN_NAMES, sayExplained } from '../../../sentence/compared-images.ts';
import { its, listed, type Ref, say } from '../../../sentence/wording.ts';
import { hex, hexAddress } from '../../../units/hex.ts';
import { DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import { feedOf } from '../../resistive-reach.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';
import { storedImage, wantedImages } from '../../store-table.ts';
import { storedDifferences } from '../../stored-differences.ts';
import { pinsOffTable } from '../../stored-elsewhere.ts';
import { type MemoryPins, tablePins } from '../../table-pins.ts';
import { isWrittenByHand } from '../../write-button.ts';

interface Data {
  readonly memory: Ref;
  /** the data pins that differ in some row */
  readonly pins: readonly Ref[];
  /** rows that differ, of so many */
  readonly rows: number;
  readonly of: number;
  /** the first that differs, its address and bytes as they print */
  readonly row: number;
  readonly address: string;
  readonly stored: string;
  readonly wants: string;
  /** what explains the rows that differ, in a sentence; empty where nothing simple does, or more than one thing */
  readonly explained: string;
  /** begun: what differs is still erased */
  readonly state: 'forgotten' | 'blank' | 'begun' | 'other';
  /** address pins that the table does not use and that keep all of it out of reach, and the level that they have */
  readonly off?: { readonly pins: readonly Ref[]; readonly level: 'low' | 'high' };
  /** a button on the bench writes it */
  readonly byHand: boolean;
}

export const notAsWanted = defineRule<Data>({
  code: 'memory/not-as-wanted',
  severity: 'fault',
  // being written byte by byte is no fault
  severityOf: ({ state, byHand, off }) => (!off && (state === 'forgotten' || (byHand && state !== 'other')) ? 'suggestion' : 'fault'),
  reads: 'stored',
  look: ({ circuit, memories }) =>
    tablePins(circuit).flatMap((pins) => {
      const chip = circuit.chipById.get(pins.memory);
      return chip ? compare(circuit, chip, pins, memories[pins.memory]) : [];
    }),
  message({ memory, pins, rows, of, row, address, stored, wants, explained, state, byHand, off }) {
    if (off) {
      const tied = listed(off.pins);
      return say`${memory} holds the table, but not where it is read: ${tied} ${off.pins.length > 1 ? 'are' : 'is'} ${off.level}, and the table stands where ${off.pins.length > 1 ? 'they are' : 'it is'} ${off.level === 'high' ? 'low' : 'high'}. ${off.level === 'high' ? `Wire ${off.pins.length > 1 ? 'them' : 'it'} to −` : 'Write it where it is read'}.`;
    }
    if (state === 'forgotten') return say`${memory} is volatile and holds none of the table yet. Switch the supply on, then write it.`;
    const at = pins.length > 3 ? say`${pins.length} of its data pins` : listed(pins.map(its));
    const where = say`${grouped(rows)} of ${grouped(of)} rows of the table, at ${at}: ${rows === 1 ? '' : 'first '}row ${row}, address ${address}, stored ${stored}, wanted ${wants}`;
    const bytes = rows === 1 ? 'that byte' : 'those bytes';
    const yet = byHand ? ' yet' : '';
    if (state === 'blank') return say`${memory} is not${yet} written: it is blank and differs in ${where}. Write the table into it.`;
    return state === 'begun'
      ? say`${memory} is not fully written${yet}: it is still erased in ${where}. Write ${bytes} too.`
      : say`${memory} differs in ${where}. ${explained === '' ? '' : `${explained} `}Write ${bytes} again, or correct the table.`;
  },
});

function compare(circuit: Circuit, chip: ChipSite, pins: MemoryPins, image: Plan['memories'][string] | undefined): readonly Data[] {
  const { wanted } = circuit.plan;
  const { word } = chip.spec;
  const feed = supplyOf(circuit, chip);
  if (!wanted || !word || feed === 'reversed') return [];
  const bytes = digitsByAddress(image);
  const rows = storedDifferences(wanted, pins, bytes);
  const [first] = rows;
  if (!first) return [];
  const differs = rows.reduce((bits, { stored, wants }) => bits | (wants ^ stored), 0);
  const off = feed === 'on' ? pinsOffTable(wanted, pins, bytes) : undefined;
  const blank = [...bytes.values()].every((b) => b === ERASED);
  const unwritten = rows.every(({ stored }) => stored === ERASED_BYTE);
  return [
    {
      memory: toPart(chip.placed),
      pins: word.data.flatMap((name, bit) => {
        const output = (differs >> bit) & 1 ? chip.outputs.find((o) => o.name === name) : undefined;
        return output ? [toPin(output.leg)] : [];
      }),
      rows: rows.length,
      of: wanted.rows.length,
      row: first.row,
      address: hexAddress(first.address, 2 ** word.address.length),
      stored: hex(first.stored, 2),
      wants: hex(first.wants, 2),
      explained: blank || unwritten || rows.length === 1 ? '' : explainedOnce(circuit, pins, image),
      byHand: isWrittenByHand(circuit, chip),
      ...(off ? { off: tiedPins(chip, pins, off) } : {}),
      state: blank ? (word.forgets ? 'forgotten' : 'blank') : unwritten ? 'begun' : 'other',
    },
  ];
}

/** Reversed: no level at its pins is worth anything. */
function supplyOf(circuit: Circuit, chip: ChipSite): 'on' | 'none' | 'reversed' {
  const { supply, ground } = feedOf(circuit, chip);
  if (supply.minus.length > 0 || ground.plus.length > 0) return 'reversed';
  return supply.plus.length > 0 && ground.minus.length > 0 ? 'on' : 'none';
}

function tiedPins(chip: ChipSite, { address }: MemoryPins, off: readonly number[]): NonNullable<Data['off']> {
  const names = off.map((pin) => chip.spec.word?.address[pin]);
  const level = address[off[0] ?? 0] === 'high' ? 'high' : 'low';
  return { pins: chip.inputs.filter((i) => names.includes(i.name)).map((i) => toPin(i.leg)), level };
}

/** Of the same circuit and the same bytes it is asked again and again. */
const known = new WeakMap<NonNullable<Plan['memories'][string]>, { readonly of: Circuit; readonly says: string }>();

function explainedOnce(circuit: Circuit, pins: MemoryPins, image: Plan['memories'][string] = {}): string {
  const before = known.get(image);
  if (before?.of === circuit) return before.says;
  const { wanted } = circuit.plan;
  const chips = tablePins(circuit);
  const images = wanted && wantedImages(wanted, chips);
  const asked = images?.ok ? images.value[chips.findIndex((c) => c.memory === pins.memory)] : undefined;
  const says =
    wanted && asked
      ? sayOnly(byRow(asked, wanted, pins), byRow(storedImage({ [pins.memory]: image }, pins), wanted, pins, asked), pins)
      : '';
  known.set(image, { of: circuit, says });
  return says;
}

/** What the rows of the table read, as an image with one byte a row. asked: of what nobody asked for nothing is to be explained. */
function byRow({ bytes, given }: MemoryImage, { rows }: PlanWanted, pins: MemoryPins, asked?: MemoryImage): MemoryImage {
  const at = rows.map((_, row) => addressOf(pins, row));
  return {
    bytes: Uint8Array.from(at, (a) => bytes[a] ?? 0),
    given: Uint8Array.from(at, (a) => (asked && !asked.given[a] ? 0 : (given[a] ?? 0))),
  };
}

/** The one explanation, if there is one alone. */
function sayOnly(asked: MemoryImage, stored: MemoryImage, { address, data }: MemoryPins): string {
  const compared = compareImages(asked, stored, data.length);
  if (!compared.ok || compared.value.fits.length !== 1) return '';
  const names = { ...PIN_NAMES, pin: (on: Bus, pin: number) => (on === 'data' ? `D${pin}` : `A${address.indexOf(pin)}`) };
  return sayExplained(compared.value, names)[0] ?? '';
}

/** What a cell that a plan does not name reads. */
const ERASED = 'FF';

export const notAsWantedExamples = (): RuleExamples => ({
  bad: { none: 'The text notation has no truth tables; tests/unit/findings.test.ts gives a memory one.' },
  good: { bench: memoryBench(DATA_5A + writeButton()) },
});
