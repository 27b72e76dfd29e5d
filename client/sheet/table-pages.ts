/** A large table on paper: which ways there are to print it, how many pages each takes, and the lines on every page. */
import type { PlanWanted } from '../../shared/plan.ts';
import { hex } from '../../sim-core/index.ts';

/** 'first': as many rows as one look takes in; 'hex' and 'bits': all of them, on pages of their own. */
export type TableForm = 'first' | 'hex' | 'bits' | 'none';

/** Rows that are printed one below the other without pages of their own. */
export const FEW = 256;
/** Lines in one column, and letters that lie side by side in all columns: both fit on A4 and on Letter at the size that the style gives them. */
const [LINES, LETTERS] = [64, 112];
/** Between two columns [letters]. */
const GAP = 3;
/** More pages than this are printed only after a question. */
const USUAL = 4;

export interface PrintedTablePage {
  readonly from: number;
  /** the last row on it */
  readonly to: number;
  /** by column, its lines */
  readonly columns: readonly string[];
}

interface Layout {
  /** rows on one line */
  readonly rows: number;
  readonly columns: number;
  line(row: number): string;
}

export function tablePages(wanted: PlanWanted, form: 'hex' | 'bits'): PrintedTablePage[] {
  const { rows, columns, line } = layoutOf(wanted, form);
  const all = wanted.rows.length;
  const column = LINES * rows;
  return Array.from({ length: pagesOf(wanted, form) }, (_, p): PrintedTablePage => {
    const from = p * columns * column;
    const to = Math.min(all, from + columns * column) - 1;
    const texts: string[] = [];
    for (let start = from; start <= to; start += column) {
      const lines: string[] = [];
      for (let row = start; row < Math.min(start + column, to + 1); row += rows) lines.push(line(row));
      texts.push(lines.join('\n'));
    }
    return { from, to, columns: texts };
  });
}

export function pagesOf(wanted: PlanWanted, form: TableForm): number {
  if (form === 'none' || form === 'first') return 0;
  const { rows, columns } = layoutOf(wanted, form);
  return Math.ceil(wanted.rows.length / (rows * LINES * columns));
}

/** All rows where that is a few pages, else the first ones. */
export const usualForm = (wanted: PlanWanted): TableForm => (wanted.rows.length > FEW && pagesOf(wanted, 'hex') <= USUAL ? 'hex' : 'first');

const layoutOf = (wanted: PlanWanted, form: 'hex' | 'bits'): Layout => (form === 'hex' ? inHex(wanted) : inBits(wanted));

const columnsOf = (width: number): number => Math.max(1, Math.floor((LETTERS + GAP) / (width + GAP)));

/** A row's number in hexadecimal, all of one length. */
export const rowName = (row: number, { rows }: Pick<PlanWanted, 'rows'>): string => hex(row, (rows.length - 1).toString(16).length);

/** The row's number, and the values of it and those after it. */
function inHex({ rows, dontCare: free, outputs }: PlanWanted): Layout {
  const digits = Math.max(1, Math.ceil(outputs.length / 4));
  const here = digits > 2 ? 8 : 16;
  const bits = 2 ** outputs.length - 1;
  const figure = (row: number, k: number) => {
    const [value, loose, used] = [rows[row] ?? 0, free?.[row] ?? 0, bits].map((v) => (v >> (4 * k)) & 15) as [number, number, number];
    if (loose === 0) return hex(value, 1);
    return (loose & used) === used ? '–' : '*';
  };
  const value = (row: number) => Array.from({ length: digits }, (_, i) => figure(row, digits - 1 - i)).join('');
  return {
    rows: here,
    columns: columnsOf(rowName(0, { rows }).length + 1 + here * (digits + 1)),
    line: (row) =>
      [`${rowName(row, { rows })} `, ...Array.from({ length: Math.min(here, rows.length - row) }, (_, i) => value(row + i))].join(' '),
  };
}

/** The row's number, its inputs and its outputs, most significant first. */
function inBits({ rows, dontCare: free, inputs, outputs }: PlanWanted): Layout {
  const head = String(rows.length - 1).length;
  return {
    rows: 1,
    columns: columnsOf(head + inputs.length + outputs.length + 4),
    line: (row) =>
      `${String(row).padStart(head)}  ${inputBits(row, inputs.length)}  ${outputBits(rows[row] ?? 0, free?.[row] ?? 0, outputs.length)}`,
  };
}

export const inputBits = (row: number, inputs: number): string => row.toString(2).padStart(inputs, '0');

/** A dash where it does not matter. */
export const outputBits = (value: number, free: number, outputs: number): string =>
  Array.from({ length: outputs }, (_, i) => outputs - 1 - i)
    .map((i) => ((free >> i) & 1 ? '–' : String((value >> i) & 1)))
    .join('');
