/**
 * Truth tables as a spreadsheet has them: a heading of names, then a row a line; inputs left, outputs right. In and out, and pasted. An X in an output
 * is a free cell, an X in an input stands for both values. A heading such as A3..A0 takes numbers.
 */

import { grouped } from '../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { shortened } from '../../shared/quoted.ts';
import { type Cell, type CellChange, cellAt, emptyTable, rowsOf, type TruthTable, withCells } from '../logic/truth-table.ts';
import { enumeration } from '../units/text-list.ts';
import { cellOf } from './cell-block.ts';
import { csvCell, readSeparated, type SeparatedRow } from './separated.ts';

/** Bits of one column, the most significant first. */
interface TableColumn {
  readonly head: string;
  readonly names: readonly string[];
}

/** The table of a file, and sentences on what is well but worth knowing: rows that it does not give, columns that were told apart by counting. */
export interface TableRead {
  readonly table: TruthTable;
  readonly remarks: readonly string[];
}

/** As `readTableFile`, the table alone. Fails with `table/…`. */
export function readTableText(text: string, known?: TruthTable): Outcome<TruthTable> {
  const read = readTableFile(text, known);
  return read.ok ? done(read.value.table) : read;
}

/**
 * known: the table that rows are pasted into, if there is one; its names then say which columns are inputs. Rows not given stay as they are, or free.
 * Fails with `table/…`.
 */
export function readTableFile(text: string, known?: TruthTable): Outcome<TableRead> {
  const read = headed(text, known !== undefined);
  if (!read.ok) return read;
  const [heading, ...rows] = read.value;
  const columns = heading.cells.map((head): TableColumn => ({ head, names: namesIn(head) }));
  const sides = known ? sidesOf(columns, known) : splitOf(columns, rows);
  if (!sides.ok) return sides;
  const { inputs, outputs } = sides.value;
  // the rightmost column is the least significant bit, as tables are read
  const naming = (side: readonly number[]) => side.flatMap((c) => columns[c]?.names ?? []).toReversed();
  const table = known ? done(known) : emptyTable(naming(inputs), naming(outputs));
  if (!table.ok) return table;
  const changes = changesOf(rows, columns, sides.value, table.value);
  if (!changes.ok) return changes;
  const remarks = known
    ? remarksOnRows(changes.value, known, 'stay as they were')
    : remarksOnNew(columns, sides.value, changes.value, table.value);
  return done({ table: withCells(table.value, changes.value), remarks });
}

/** Without an empty column, inputs and outputs were told apart by the number of lines: in a file that was cut that may be wrong. */
function remarksOnNew(
  columns: readonly TableColumn[],
  { inputs, outputs }: Sides,
  changes: readonly CellChange[],
  table: TruthTable,
): string[] {
  const heads = (side: readonly number[], what: string) =>
    `${enumeration(side.map((c) => columns[c]?.head ?? ''))} ${side.length === 1 ? `is the ${what}` : `are the ${what}s`}`;
  const counted = columns.every((c) => c.head !== '')
    ? [
        `No column is empty, so the number of lines decides: ${heads(inputs, 'input')}, ${heads(outputs, 'output')}. If that is wrong, leave one column empty between inputs and outputs.`,
      ]
    : [];
  return [...counted, ...remarksOnRows(changes, table, 'are don’t care (–)')];
}

/** Fewer rows than the inputs make may be meant, or be what is left of a file that was cut. */
function remarksOnRows(changes: readonly CellChange[], table: TruthTable, others: string): string[] {
  const given = new Set(changes.map((c) => c.row));
  const rows = rowsOf(table);
  if (given.size === rows) return [];
  let first = 0;
  while (given.has(first)) first += 1;
  return [
    `${grouped(given.size)} of ${grouped(rows)} rows are given; the others, from row ${first} on, ${others}. If the file was cut off, open the whole of it.`,
  ];
}

/** The line of names, and the lines below it; a block of levels has none, and `known` tells a single column from a text of another kind. */
function headed(text: string, known: boolean): Outcome<readonly [heading: SeparatedRow, ...rows: SeparatedRow[]]> {
  const read = readSeparated(text);
  if (!read.ok) return read;
  const [heading, ...rows] = read.value;
  if (!heading || rows.length === 0)
    return failed(
      'table/empty',
      'line 1',
      'There is no table here: give a line of names and a line of 0 and 1 for each row, with tabs or commas between.',
    );
  const at = `line ${heading.line}`;
  if (!known && heading.cells.length === 1)
    return failed(
      'table/empty',
      at,
      `${at}: "${shortened(heading.cells[0] ?? '')}" is one cell. A table begins with a line of names, with tabs, commas or semicolons between.`,
    );
  if (heading.cells.every((c) => cellOf(c) !== undefined))
    return failed('table/empty', at, `${at} has levels and no names. Put a line of names above it.`);
  return done([heading, ...rows]);
}

/** The cells that the lines give; no row is given twice. */
function changesOf(
  rows: readonly SeparatedRow[],
  columns: readonly TableColumn[],
  { inputs, outputs }: Sides,
  table: TruthTable,
): Outcome<readonly CellChange[]> {
  const changes: CellChange[] = [];
  const lineOf = new Map<number, number>();
  for (const row of rows) {
    const at = `line ${row.line}`;
    if (row.cells.length > columns.length)
      return failed(
        'table/wrong-row-count',
        at,
        `${at} has ${row.cells.length} cells, and the heading has ${columns.length}. Add the missing names, or remove cells.`,
      );
    if (row.cells.length <= columns.findLastIndex((c) => c.head !== ''))
      return failed(
        'table/short-line',
        at,
        `${at} has ${row.cells.length} ${row.cells.length === 1 ? 'cell' : 'cells'}, and the heading has ${columns.length}. Add the missing cells, with X for don’t care; if the file was cut off, open the whole of it.`,
      );
    const left = bitsIn(row, inputs, columns);
    if (!left.ok) return left;
    const right = bitsIn(row, outputs, columns);
    if (!right.ok) return right;
    const cells = right.value.map(([name, cell]) => ({ output: table.outputs.indexOf(name), cell }));
    for (const address of addressesOf(left.value, table)) {
      const before = lineOf.get(address);
      if (before !== undefined)
        return failed('table/row-twice', at, `${at} gives row ${address}, and so does line ${before}. Remove one of them.`);
      lineOf.set(address, row.line);
      for (const cell of cells) changes.push({ row: address, ...cell });
    }
  }
  return done(changes);
}

/** The rows that a line stands for: an X in an input is both of its values. */
function addressesOf(bits: readonly Bit[], { inputs }: TruthTable): readonly number[] {
  let addresses = [0];
  for (const [name, cell] of bits) {
    const weight = 2 ** inputs.indexOf(name);
    if (cell === '-') addresses = addresses.flatMap((a) => [a, a + weight]);
    else if (cell === 1) addresses = addresses.map((a) => a + weight);
  }
  return addresses;
}

/** Names of the columns that a text gives, those of groups each; none where it has no first line. */
export function headingOf(text: string): readonly string[] {
  const read = readSeparated(text);
  return read.ok ? (read.value[0]?.cells.flatMap(namesIn) ?? []) : [];
}

/** Most significant names left; the outputs stand behind an empty column. */
export function writeTableText(table: TruthTable, separator: ',' | '\t' = ','): string {
  const lines = [[...table.inputs.toReversed(), '', ...table.outputs.toReversed()].map(csvCell).join(separator)];
  const inputs = table.inputs.map((_, i) => i).toReversed();
  const outputs = table.outputs.map((_, o) => o).toReversed();
  for (let r = 0; r < rowsOf(table); r++) {
    const cells = outputs.map((o) => cellAt(table, r, o)).map((c) => (c === '-' ? 'X' : c));
    lines.push([...inputs.map((i) => (r >>> i) & 1), '', ...cells].join(separator));
  }
  return `${lines.join('\n')}\n`;
}

/** "A3..A0" → A3 A2 A1 A0 */
function namesIn(head: string): readonly string[] {
  const range = /^(.*?)(\d+)\s*(?:\.\.|…)\s*\1?(\d+)$/.exec(head);
  if (!range) return [head];
  const [, stem = '', first, last] = range;
  const [from, to] = [Number(first), Number(last)];
  return Array.from({ length: Math.min(32, Math.abs(from - to) + 1) }, (_, i) => `${stem}${from < to ? from + i : from - i}`);
}

type Sides = { readonly inputs: readonly number[]; readonly outputs: readonly number[] };

function sidesOf(columns: readonly TableColumn[], known: TruthTable): Outcome<Sides> {
  const side = (names: readonly string[]) => columns.flatMap((c, i) => (c.names.every((n) => names.includes(n)) ? [i] : []));
  const [inputs, outputs] = [side(known.inputs), side(known.outputs)];
  const stranger = columns.find((c, i) => c.head !== '' && !inputs.includes(i) && !outputs.includes(i));
  if (stranger)
    return failed(
      'table/unknown-column',
      'line 1',
      `line 1: the table has no column ${shortened(stranger.head)}. It has ${[...known.inputs, ...known.outputs].join(', ')}.`,
    );
  const named = inputs.flatMap((i) => columns[i]?.names ?? []);
  const missing = known.inputs.find((n) => !named.includes(n));
  if (missing !== undefined)
    return failed(
      'table/missing-column',
      'line 1',
      `line 1: the column of input ${missing} is missing, so lines cannot be distinguished. Add it; X in it means both.`,
    );
  if (outputs.length === 0)
    return failed('table/no-columns', 'line 1', `line 1 names no output. Name at least one of ${known.outputs.join(', ')}.`);
  return done({ inputs, outputs });
}

/** Inputs end at an empty column; without one, where the lines are all 2^n rows of the first n columns. */
function splitOf(columns: readonly TableColumn[], rows: readonly SeparatedRow[]): Outcome<Sides> {
  const indices = columns.map((_, i) => i);
  const gap = columns.findIndex((c) => c.head === '');
  if (gap > 0) return done({ inputs: indices.slice(0, gap), outputs: indices.slice(gap + 1).filter((i) => columns[i]?.head !== '') });
  const bits = Math.log2(rows.length);
  let counted = 0;
  const end = columns.findIndex((c) => {
    counted += c.names.length;
    return counted >= bits;
  });
  const first = rows.map((r) => r.cells.slice(0, end + 1).join());
  if (Number.isInteger(bits) && counted === bits && new Set(first).size === rows.length)
    return done({ inputs: indices.slice(0, end + 1), outputs: indices.slice(end + 1) });
  return failed('table/no-gap', 'line 1', 'line 1: it is unclear where inputs end and outputs begin. Leave one column empty between them.');
}

type Bit = readonly [name: string, cell: Cell];

function bitsIn(row: SeparatedRow, side: readonly number[], columns: readonly TableColumn[]): Outcome<readonly Bit[]> {
  const all: Bit[] = [];
  for (const c of side) {
    const bits = bitsOf(row, c, columns[c]);
    if (!bits.ok) return bits;
    all.push(...bits.value);
  }
  return done(all);
}

function bitsOf(row: SeparatedRow, c: number, { names, head }: TableColumn = { names: [], head: '' }): Outcome<readonly Bit[]> {
  const text = row.cells[c] ?? '';
  const at = `line ${row.line}`;
  const cell = cellOf(text);
  if (cell === '-') return done(names.map((n) => [n, '-'] as const));
  if (names.length === 1) {
    if (cell === undefined)
      return failed(
        'table/not-a-level',
        at,
        `${at}: "${shortened(text)}" in column ${shortened(head)} is no level. Write 0, 1, or X for don’t care.`,
      );
    return done(names.map((n) => [n, cell] as const));
  }
  const value = /^0x[0-9A-F]+$|^0b[01]+$|^\d+$/i.test(text) ? Number(text) : Number.NaN;
  if (!(value < 2 ** names.length))
    return failed(
      'table/not-a-level',
      at,
      `${at}: "${shortened(text)}" in column ${shortened(head)} is no number from 0 to ${2 ** names.length - 1}. Correct it, or write X for don’t care.`,
    );
  return done(names.map((n, i) => [n, Math.floor(value / 2 ** (names.length - 1 - i)) % 2 ? 1 : 0] as const));
}
