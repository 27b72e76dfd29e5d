/** What is marked in the grid of rows: a block of cells, as changes of the table and as text that a spreadsheet takes. */
import { type Cell, type CellChange, cellAt, type TruthTable } from '../../../sim-core/index.ts';
import type { GridCell } from './grid-keys.ts';

/** Rows and columns from the first to the last; column 0 is the leftmost wanted output. */
export interface Block {
  readonly rows: readonly [number, number];
  readonly columns: readonly [number, number];
}

/** Between two corners; a corner on the row's number counts as the first column. */
export const blockBetween = (a: GridCell, b: GridCell): Block => ({
  rows: [Math.min(a.row, b.row), Math.max(a.row, b.row)],
  columns: [Math.max(0, Math.min(a.column, b.column)), Math.max(0, a.column, b.column)],
});

export const isIn = ({ rows, columns }: Block, row: number, column: number): boolean =>
  row >= rows[0] && row <= rows[1] && column >= columns[0] && column <= columns[1];

/** Columns stand most significant first. outputs: how many there are. */
export const outputAt = (column: number, outputs: number): number => outputs - 1 - column;

const from = ([first, last]: readonly [number, number]): number[] => Array.from({ length: last - first + 1 }, (_, i) => first + i);

/** All of it becomes this cell. */
export const changesTo = ({ rows, columns }: Block, cell: Cell, outputs: number): CellChange[] =>
  from(rows).flatMap((row) => from(columns).map((column) => ({ row, output: outputAt(column, outputs), cell })));

/** One line a row, tabs between the cells, X for a free one. */
export function markedText({ rows, columns }: Block, table: TruthTable): string {
  const cell = (row: number, column: number) => cellAt(table, row, outputAt(column, table.outputs.length));
  const line = (row: number) => from(columns).map((column) => (cell(row, column) === '-' ? 'X' : String(cell(row, column))));
  return from(rows)
    .map((row) => `${line(row).join('\t')}\n`)
    .join('');
}
