/** Cells of a table without a heading, as they are copied from a spreadsheet: each in its place, an empty one free. */
import type { Cell } from '../logic/truth-table.ts';

const CELLS: Readonly<Record<string, Cell>> = {
  '0': 0,
  L: 0,
  FALSE: 0,
  '1': 1,
  H: 1,
  TRUE: 1,
  X: '-',
  '-': '-',
  '–': '-',
  '*': '-',
  '?': '-',
  '': '-',
};

/** What a cell's text says of a level; undefined: nothing. */
export const cellOf = (text: string): Cell | undefined => CELLS[text.toUpperCase()];

/** Undefined where anything but cells stands in it, or nothing at all. */
export function readCellBlock(text: string): readonly (readonly Cell[])[] | undefined {
  const bare = text.replace(/^\ufeff/, '').trimEnd();
  if (bare === '') return undefined;
  const mark = ['\t', ';', ','].find((m) => bare.includes(m));
  const lines = bare.split(/\r\n|\n|\r/);
  // a row of a spreadsheet has its marks even where all its cells are empty; of one column a line without anything is such a cell
  const rows = (lines.some((l) => /\S[\t,; ]+\S/.test(l)) ? lines.filter((l) => l !== '') : lines).map((l) =>
    (mark ? l.split(mark) : l.trim().split(/ +/)).map((c) => c.trim().replace(/^"(.*)"$/, '$1')),
  );
  const wide = rows.reduce((most, row) => Math.max(most, row.findLastIndex((c) => c !== '') + 1), 0);
  const cells = rows.map((row) => row.slice(0, wide).map(cellOf));
  return cells.every((row): row is Cell[] => row.every((c) => c !== undefined)) ? cells : undefined;
}
