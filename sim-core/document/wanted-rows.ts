/** Some rows of the wanted table as a change of their own, so that one cell of 65 536 rows is not sent, kept and undone as the whole table. */
import type { PlanWanted } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import { keyed, placeIn } from './ordered-record.ts';

/** A row's word, and its bits that are free. */
type Words = readonly [word: number, dontCare: number];

export interface WantedRow {
  readonly row: number;
  readonly before: Words;
  readonly after: Words;
}

export interface SetWantedRows {
  readonly op: 'set-rows';
  readonly rows: readonly WantedRow[];
  /** the table's list of free bits, which it need not have, begins or ends with this */
  readonly list?: 'comes' | 'goes';
  /** where that list stands among the table's names; absent: last */
  readonly index?: number;
}

/** Above an eighth of a table's rows the whole table is the smaller change. */
export const isMost = (count: number, { rows }: PlanWanted): boolean => count > Math.max(1, rows.length / 8);

export function withWantedRows(wanted: PlanWanted, { rows, list, index }: SetWantedRows): PlanWanted {
  const words = wanted.rows.slice();
  const dontCare = wanted.dontCare?.slice() ?? (list === 'comes' ? wanted.rows.map(() => 0) : undefined);
  for (const { row, after } of rows) {
    words[row] = after[0];
    if (dontCare) dontCare[row] = after[1];
  }
  return keyed({ ...wanted, rows: words }, 'dontCare', list === 'goes' ? undefined : dontCare, index);
}

export const invertWantedRows = ({ rows, list, ...c }: SetWantedRows): SetWantedRows => ({
  ...c,
  rows: rows.map(({ row, before, after }) => ({ row, before: after, after: before })),
  ...(list ? { list: list === 'comes' ? 'goes' : 'comes' } : {}),
});

/** The same bits in the same rows of the table as it is now; undefined: nothing of it can be done any more. */
export function rebasedWantedRows(wanted: PlanWanted | undefined, { op, rows, index }: SetWantedRows): SetWantedRows | undefined {
  if (!wanted) return undefined;
  const all = 2 ** wanted.outputs.length - 1;
  const fitting = rows.flatMap(({ row, before, after }): WantedRow[] => {
    const bits = ((before[0] ^ after[0]) | (before[1] ^ after[1])) & all;
    if (row >= wanted.rows.length || bits === 0) return [];
    const now: Words = [wanted.rows[row] ?? 0, wanted.dontCare?.[row] ?? 0];
    return [{ row, before: now, after: [(now[0] & ~bits) | (after[0] & bits), (now[1] & ~bits) | (after[1] & bits)] }];
  });
  if (fitting.length === 0) return undefined;
  const change: SetWantedRows = { op, rows: fitting, ...(index === undefined ? {} : { index }) };
  if (!wanted.dontCare) return fitting.some((r) => r.after[1] !== 0) ? { ...change, list: 'comes' } : change;
  const touched = new Map(fitting.map((r) => [r.row, r.after[1]]));
  if (wanted.dontCare.some((f, row) => (touched.get(row) ?? f) !== 0)) return change;
  return { ...change, list: 'goes', index: placeIn(wanted, 'dontCare') };
}

/** The rows in which two tables of the same columns and rules differ; undefined: they differ in more, or in so many rows that the whole is less. */
export function rowsBetween(before: PlanWanted, after: PlanWanted): SetWantedRows | undefined {
  const { rows, dontCare = [], ...lines } = before;
  const { rows: others, dontCare: otherFree = [], ...otherLines } = after;
  if (rows.length !== others.length || !sameValue(lines, otherLines)) return undefined;
  const found: WantedRow[] = [];
  for (let row = 0; row < rows.length; row++) {
    const [was, is]: [Words, Words] = [
      [rows[row] ?? 0, dontCare[row] ?? 0],
      [others[row] ?? 0, otherFree[row] ?? 0],
    ];
    if (was[0] === is[0] && was[1] === is[1]) continue;
    found.push({ row, before: was, after: is });
    if (isMost(found.length, before)) return undefined;
  }
  return rebasedWantedRows(before, { op: 'set-rows', rows: found });
}
