/** What can be where not everything is known: every combination of unknown inputs and possible numbers in a cell is tried, so that an X is exact. */
import { type Doing, HIGH, LOW, RELEASED } from './logic-function.ts';

/** Levels of some inputs as bits: `value` of those that are known, 1 in `unknown` for the others. */
export interface Bits {
  readonly value: number;
  readonly unknown: number;
}

/** A function of some inputs and a cell, tabulated: place = inputs + (number in the cell << inputs' count). */
export interface OutputTable {
  readonly inputs: readonly number[];
  readonly cell: number | undefined;
  readonly entries: Uint8Array;
}

/** inputs: positions among the chip's inputs; bits: how many the cell has. */
export function tabulate(
  inputs: readonly number[],
  cell: { readonly index: number; readonly bits: number } | undefined,
  is: (...bits: number[]) => number,
): OutputTable {
  const k = inputs.length;
  const entries = Uint8Array.from({ length: 1 << (k + (cell?.bits ?? 0)) }, (_, place) =>
    is(...inputs.map((_, i) => (place >> i) & 1), ...(cell ? [place >> k] : [])),
  );
  return { inputs, cell: cell?.index, entries };
}

/** Numbers that a cell may have: bit n is set where it may have n. */
export type Numbers = number;

export const ANY = (bits: number): Numbers => 2 ** (2 ** bits) - 1;

/** Every value of the table that may be, as a mask. */
export function possible(table: OutputTable, bits: Bits, numbers: Numbers): number {
  const k = table.inputs.length;
  let found = 0;
  for (let n = 0; table.cell === undefined ? n < 1 : numbers >> n !== 0; n++) {
    if (table.cell !== undefined && !((numbers >> n) & 1)) continue;
    for (let low = 0; ; low = (low - bits.unknown) & bits.unknown) {
      found |= 1 << (table.entries[(bits.value | low) + (n << k)] as number);
      if (low === bits.unknown) break;
    }
  }
  return found;
}

/** What an output does, if all that may be agrees. */
export function certain(found: number): Doing | undefined {
  return found === 1 << LOW ? LOW : found === 1 << HIGH ? HIGH : found === 1 << RELEASED ? RELEASED : undefined;
}
