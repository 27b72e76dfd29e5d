/** A memory that holds other bytes than the plan's truth table wants: which row is the first, how many there are, and at which pins. */
import type { Plan } from '../../../../shared/plan.ts';
import { digitsByAddress } from '../../../document/memory-rows.ts';
import { addressOf } from '../../../logic/pin-map.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import { hex } from '../../../units/hex.ts';
import { DATA_5A, memoryBench, writeButton } from '../../example-benches.ts';
import { toPart, toPin } from '../../refs.ts';
import { defineRule, type Remark } from '../../rule.ts';
import { type MemoryPins, tablePins } from '../../table-pins.ts';

export const notAsWanted = defineRule({
  code: 'memory/not-as-wanted',
  severity: 'fault',
  reads: 'stored',
  look: ({ circuit, memories }) => tablePins(circuit).flatMap((pins) => compare(circuit, pins, memories[pins.memory])),
  bad: { none: 'The text notation has no truth tables; tests/unit/findings.test.ts gives a memory one.' },
  good: { bench: memoryBench(DATA_5A + writeButton()) },
});

function compare(circuit: Circuit, pins: MemoryPins, image: Plan['memories'][string] | undefined): readonly Remark[] {
  const { wanted } = circuit.plan;
  const chip = circuit.chipById.get(pins.memory);
  const { word } = chip?.spec ?? {};
  if (!wanted || !chip || !word) return [];
  const lines = pins.data.flatMap((line, bit) =>
    line === 'unused' ? [] : [{ line, bit, flips: wanted.outputs[line]?.activeLow ? 1 : 0 }],
  );
  const bytes = digitsByAddress(image);
  let count = 0;
  let first: { row: number; address: number; stored: number; wants: number } | undefined;
  let differs = 0;
  let unwritten = true;
  for (const [row, value] of wanted.rows.entries()) {
    const address = addressOf(pins, row);
    const digits = bytes.get(address);
    const stored = digits === undefined ? ERASED_BYTE : Number.parseInt(digits, 16);
    let wants = stored;
    for (const { line, bit, flips } of lines)
      if (!(((wanted.free?.[row] ?? 0) >> line) & 1)) wants = (wants & ~(1 << bit)) | ((((value >> line) & 1) ^ flips) << bit);
    if (wants === stored) continue;
    count += 1;
    differs |= wants ^ stored;
    unwritten &&= stored === ERASED_BYTE;
    first ??= { row, address, stored, wants };
  }
  if (!first) return [];
  const at = word.data.flatMap((name, bit) => {
    const output = (differs >> bit) & 1 ? chip.outputs.find((o) => o.name === name) : undefined;
    return output ? [toPin(output.leg)] : [];
  });
  const blank = [...bytes.values()].every((b) => b === ERASED);
  // being written byte by byte is no fault: what differs is still erased
  const state = blank ? (word.forgets ? 'forgotten' : 'blank') : unwritten ? 'begun' : 'other';
  return [
    {
      at: [toPart(chip.placed), ...at],
      ...(state === 'other' ? {} : { severity: 'suggestion' }),
      data: {
        rows: count,
        pins: at.length,
        of: wanted.rows.length,
        row: first.row,
        address: hex(first.address, Math.ceil(word.address.length / 4)),
        stored: hex(first.stored, 2),
        wants: hex(first.wants, 2),
        state,
      },
    },
  ];
}

/** What a cell that a plan does not name reads. */
const ERASED = 'FF';
const ERASED_BYTE = 0xff;
