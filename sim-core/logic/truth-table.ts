/** A truth table as a value: names of inputs and outputs, one word a row, and which bits are don't care. */

import { isPlainName } from '../../shared/column-name.ts';
import { grouped } from '../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../shared/outcome.ts';

/** An address of 16 pins, and words as wide as two memories side by side. */
const MOST_INPUTS = 16;
const MOST_OUTPUTS = 16;
const LONGEST_NAME = 40;

/** Names of inputs and outputs, one word a row, and a mask of the bits that don't matter. */
export interface TruthTable {
  /** least significant first: bit i of a row's number is inputs[i] */
  readonly inputs: readonly string[];
  /** bit i of a row's word is outputs[i] */
  readonly outputs: readonly string[];
  /** one word a row, 2^inputs rows; a free bit is 0 here. Never written to: a change makes a new table. */
  readonly values: Uint16Array;
  /** bits that may be either */
  readonly dontCare: Uint16Array;
}

/** What a table wants of one output in one row; '-', as in IEEE 1164: don't care. */
export type Cell = 0 | 1 | '-';

/** How many rows a table has: 2 to the power of its inputs. */
export const rowsOf = (table: TruthTable): number => table.values.length;

/** A table whose every cell is free. Fails with `table/bad-name` or `table/name-taken`. */
export function emptyTable(inputs: readonly string[], outputs: readonly string[]): Outcome<TruthTable> {
  const wrong = wrongNames(inputs, 'input', MOST_INPUTS) ?? wrongNames(outputs, 'output', MOST_OUTPUTS) ?? sharedName(inputs, outputs);
  if (wrong) return wrong;
  const rows = 2 ** inputs.length;
  return done({
    inputs: [...inputs],
    outputs: [...outputs],
    values: new Uint16Array(rows),
    dontCare: new Uint16Array(rows).fill(2 ** outputs.length - 1),
  });
}

/**
 * values, free: one word a row, copied; missing rows are refused. Without `free` every cell counts.
 * Fails with `table/bad-name`, `table/name-taken` or `table/wrong-row-count`.
 */
export function tableOfWords(
  inputs: readonly string[],
  outputs: readonly string[],
  values: ArrayLike<number>,
  dontCare?: ArrayLike<number>,
): Outcome<TruthTable> {
  const empty = emptyTable(inputs, outputs);
  if (!empty.ok) return empty;
  const rows = rowsOf(empty.value);
  if (values.length !== rows || (dontCare && dontCare.length !== rows))
    return failed(
      'table/wrong-row-count',
      'rows',
      `${inputs.length} inputs make ${grouped(rows)} rows, but ${grouped(values.length)} words were given. Give one word a row.`,
    );
  const all = 2 ** outputs.length - 1;
  const [words, loose] = [new Uint16Array(rows), new Uint16Array(rows)];
  for (let r = 0; r < rows; r++) {
    const any = (dontCare?.[r] ?? 0) & all;
    loose[r] = any;
    words[r] = (values[r] ?? 0) & all & ~any;
  }
  return done({ ...empty.value, values: words, dontCare: loose });
}

/** The cell of one output in one row. */
export function cellAt(table: TruthTable, row: number, output: number): Cell {
  if (((table.dontCare[row] ?? 0) >> output) & 1) return '-';
  return ((table.values[row] ?? 0) >> output) & 1 ? 1 : 0;
}

/** output: index of the output whose cell in that row becomes `cell`. Later changes win. */
export interface CellChange {
  readonly row: number;
  readonly output: number;
  readonly cell: Cell;
}

/** The table with these cells changed; the table itself stays as it is. */
export function withCells(table: TruthTable, changes: readonly CellChange[]): TruthTable {
  const values = table.values.slice();
  const dontCare = table.dontCare.slice();
  for (const { row, output, cell } of changes) {
    const bit = 1 << output;
    values[row] = ((values[row] ?? 0) & ~bit) | (cell === 1 ? bit : 0);
    dontCare[row] = ((dontCare[row] ?? 0) & ~bit) | (cell === '-' ? bit : 0);
  }
  return { ...table, values, dontCare };
}

/** Bits of a row in which a word breaks what the table asks for. */
export const wrongBits = (table: TruthTable, row: number, word: number): number =>
  ((table.values[row] ?? 0) ^ word) & ~(table.dontCare[row] ?? 0) & (2 ** table.outputs.length - 1);

/** Why these names cannot head a table's columns. */
function wrongNames(names: readonly string[], what: 'input' | 'output', most: number): Outcome<never> | undefined {
  if (names.length < 1 || names.length > most)
    return failed(
      names.length > most ? 'table/too-many-columns' : 'table/no-columns',
      `${what}s`,
      `There are ${names.length} ${what}s; a table has 1 to ${most} of them. ${names.length > most ? 'Split it into several tables.' : 'Name one.'}`,
    );
  for (const [i, name] of names.entries()) {
    const place = `${what} ${i + 1}`;
    if (name.trim() === '')
      return failed('table/bad-name', place, `Column "${place}" has no name. Give it one, such as ${what === 'input' ? 'A' : 'F'}${i}.`);
    if (name.length > LONGEST_NAME)
      return failed('table/bad-name', place, `The name of ${place} has ${name.length} characters, and ${LONGEST_NAME} fit. Shorten it.`);
    if (!isPlainName(name))
      return failed('table/bad-name', place, `The name of ${place} has a quotation mark, a tab or a space at its edge. Leave that out.`);
    if (names.indexOf(name) < i)
      return failed(
        'table/name-taken',
        place,
        `Two ${what}s are called ${name}: numbers ${names.indexOf(name) + 1} and ${i + 1}. Rename one.`,
      );
  }
  return undefined;
}

function sharedName(inputs: readonly string[], outputs: readonly string[]): Outcome<never> | undefined {
  const both = outputs.find((o) => inputs.includes(o));
  return both === undefined ? undefined : failed('table/name-taken', both, `An input and an output are both called ${both}. Rename one.`);
}
