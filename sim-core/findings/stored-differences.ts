/** Where a memory's bytes differ from what the table wants at its pins. */
import type { Plan } from '../../shared/plan.ts';
import { ERASED } from '../document/memory-rows.ts';
import { addressOf } from '../logic/pin-map.ts';
import type { MemoryPins } from './table-pins.ts';

/** One row whose byte is not the wanted one. */
export interface RowDifference {
  readonly row: number;
  readonly address: number;
  readonly stored: number;
  readonly wants: number;
}

/** The rows whose stored byte is not the wanted one, in the bits that are wanted. */
export function storedDifferences(
  wanted: NonNullable<Plan['wanted']>,
  pins: MemoryPins,
  bytes: ReadonlyMap<number, string>,
): RowDifference[] {
  const lines = pins.data.flatMap((line, bit) =>
    line === 'unused' ? [] : [{ line, bit, flips: wanted.outputs[line]?.activeLow ? 1 : 0 }],
  );
  return wanted.rows.flatMap((value, row) => {
    const address = addressOf(pins, row);
    const digits = bytes.get(address);
    const stored = digits === undefined ? ERASED : Number.parseInt(digits, 16);
    let wants = stored;
    for (const { line, bit, flips } of lines)
      if (!(((wanted.dontCare?.[row] ?? 0) >> line) & 1)) wants = (wants & ~(1 << bit)) | ((((value >> line) & 1) ^ flips) << bit);
    return wants === stored ? [] : [{ row, address, stored, wants }];
  });
}
