/** Edits of the wanted truth table as values: columns named, added, moved and taken out, cells filled; each answers the table as it then is. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { PlanWanted } from '../../../shared/plan.ts';
import { renamedIn } from '../../logic/expression/rule-override.ts';
import { withRules } from '../../logic/rules-table.ts';
import { type CellChange, type TruthTable, tableOfWords, withCells } from '../../logic/truth-table.ts';
import { type Change, join } from '../changes.ts';
import { isMost, rebasedWantedRows, rowsBetween, type WantedRow } from '../wanted-rows.ts';

type Side = 'inputs' | 'outputs';
export type WantedOutputLine = PlanWanted['outputs'][number];

/** Lines of rules, and signs in one, that a plan takes. */
const MOST_LINES = 64;
const LONGEST_LINE = 2000;

/** The smallest change that makes one table of the other: some of its rows where they alone differ, else all of it. */
export function settingWanted(before: PlanWanted | undefined, after: PlanWanted | undefined): Change {
  const rows = before && after && rowsBetween(before, after);
  return rows ?? { op: 'set', field: 'wanted', before, after };
}

/** Cells filled in, later ones over earlier ones; only what the cells' own rows say is looked at. Cells that the table does not have are left out. */
export function settingCells(wanted: PlanWanted, changes: readonly CellChange[]): Change {
  const after = new Map<number, [word: number, dontCare: number]>();
  for (const { row, output, cell } of changes) {
    if (row >= wanted.rows.length || wanted.outputs[output] === undefined) continue;
    const words = after.get(row) ?? [wanted.rows[row] ?? 0, wanted.dontCare?.[row] ?? 0];
    const bit = 1 << output;
    after.set(row, [(words[0] & ~bit) | (cell === 1 ? bit : 0), (words[1] & ~bit) | (cell === '-' ? bit : 0)]);
  }
  if (isMost(after.size, wanted)) {
    const { dontCare: was, ...bare } = wanted;
    const [rows, dontCare] = [wanted.rows.slice(), was?.slice() ?? wanted.rows.map(() => 0)];
    for (const [row, words] of after) [rows[row], dontCare[row]] = words;
    return settingWanted(wanted, { ...bare, rows, ...(dontCare.some((f) => f !== 0) ? { dontCare } : {}) });
  }
  const rows = [...after].map(([row, is]): WantedRow => ({ row, before: [wanted.rows[row] ?? 0, wanted.dontCare?.[row] ?? 0], after: is }));
  return rebasedWantedRows(wanted, { op: 'set-rows', rows }) ?? join();
}

/**
 * The wanted table of a plan as a truth table; or why it is none.
 * Fails with `table/bad-name`, `table/name-taken` or `table/wrong-row-count`.
 */
export const tableOfWanted = (wanted: PlanWanted): Outcome<TruthTable> =>
  tableOfWords(
    wanted.inputs.map((i) => i.name),
    wanted.outputs.map((o) => o.name),
    wanted.rows,
    wanted.dontCare,
  );

/** The same lines with what this table says; its columns must be theirs, in order. */
export function wantedOfTable({ dontCare: _, ...wanted }: PlanWanted, table: TruthTable): PlanWanted {
  const rows = Array.from(table.values);
  return table.dontCare.some((f) => f !== 0) ? { ...wanted, rows, dontCare: Array.from(table.dontCare) } : { ...wanted, rows };
}

/** Checked as a table is: names that are empty, alike or too long are refused. */
function checked(wanted: PlanWanted): Outcome<PlanWanted> {
  const table = tableOfWanted(wanted);
  return table.ok ? done(wantedOfTable(wanted, table.value)) : table;
}

/** The wanted table with these cells changed. Fails with `table/bad-name`, `table/name-taken` or `table/wrong-row-count`. */
export function withWantedCells(wanted: PlanWanted, changes: readonly CellChange[]): Outcome<PlanWanted> {
  const table = tableOfWanted(wanted);
  return table.ok ? done(wantedOfTable(wanted, withCells(table.value, changes))) : table;
}

/**
 * Every row twice, once for each value of the new input, which comes last and is the most significant.
 * Fails with `table/bad-name`, `table/name-taken` or `table/wrong-row-count`.
 */
export function addInput(wanted: PlanWanted, input: PlanWanted['inputs'][number]): Outcome<PlanWanted> {
  const twice = <T>(list: readonly T[]) => [...list, ...list];
  return checked({
    ...wanted,
    inputs: [...wanted.inputs, input],
    rows: twice(wanted.rows),
    ...(wanted.dontCare ? { dontCare: twice(wanted.dontCare) } : {}),
  });
}

/** A new output is free in every row. Fails with `table/bad-name`, `table/name-taken` or `table/wrong-row-count`. */
export function addOutput(wanted: PlanWanted, output: WantedOutputLine): Outcome<PlanWanted> {
  const bit = 2 ** wanted.outputs.length;
  return checked({
    ...wanted,
    outputs: [...wanted.outputs, output],
    dontCare: wanted.rows.map((_, row) => (wanted.dontCare?.[row] ?? 0) + bit),
  });
}

/**
 * Of an input, the rows in which it is 0 stay.
 * Fails with `edit/last-line`, `table/bad-name`, `table/name-taken` or `table/wrong-row-count`.
 */
export function removeLine(wanted: PlanWanted, side: Side, index: number): Outcome<PlanWanted> {
  if (wanted[side].length === 1)
    return failed(
      'edit/last-line',
      side,
      `A table has at least one ${side === 'inputs' ? 'input' : 'output'}. Rename this one, or remove the whole table.`,
    );
  return side === 'inputs'
    ? moved(wanted, without(wanted.inputs.length, index), undefined)
    : moved(wanted, undefined, without(wanted.outputs.length, index));
}

/** The line comes to stand at `to`; rows and cells go along. Fails with `table/bad-name`, `table/name-taken` or `table/wrong-row-count`. */
export function moveLine(wanted: PlanWanted, side: Side, from: number, to: number): Outcome<PlanWanted> {
  const order = wanted[side].map((_, i) => i);
  const [line = 0] = order.splice(from, 1);
  order.splice(to, 0, line);
  return side === 'inputs' ? moved(wanted, order, undefined) : moved(wanted, undefined, order);
}

/**
 * Another name, pin, LED or level for a line; rules speak of it by its new name, and the line that had its new pin takes the old one.
 * Fails with `rules/number-too-large`, `rules/syntax` or `table/…`.
 */
export function changeLine(
  wanted: PlanWanted,
  side: Side,
  index: number,
  line: { readonly name: string; readonly pin: string },
): Outcome<PlanWanted> {
  const before = wanted[side][index];
  if (!before) return failed('table/line-gone', side, 'This line is not in the table any more.');
  const lines = wanted[side].map((l, i) => (i === index ? line : l.pin === line.pin ? { ...l, pin: before.pin } : l));
  const next = checked({ ...wanted, [side]: lines });
  if (!next.ok || before.name === line.name || !wanted.expressions) return next;
  return done({ ...next.value, expressions: wanted.expressions.map((e) => renamedIn(e, before.name, line.name)) });
}

/**
 * Fills what the rules speak of and keeps their text; an empty text is none.
 * Fails with `rules/…`, `table/bad-name`, `table/name-taken` or `table/wrong-row-count`.
 */
export function withWantedRules(wanted: PlanWanted, text: string): Outcome<PlanWanted> {
  const { expressions: _, ...bare } = wanted;
  const lines = text.split('\n').filter((l) => l.trim() !== '');
  if (lines.length === 0) return done(bare);
  if (lines.length > MOST_LINES)
    return failed(
      'rules/too-long',
      `line ${MOST_LINES + 1}`,
      `There are ${lines.length} lines of rules, and a plan takes ${MOST_LINES}. Join some of them.`,
    );
  const long = lines.findIndex((l) => l.length > LONGEST_LINE);
  if (long >= 0)
    return failed(
      'rules/too-long',
      `line ${long + 1}`,
      `Line ${long + 1} has ${lines[long]?.length} characters, and ${LONGEST_LINE} fit. Give a part of it a name of its own.`,
    );
  const table = tableOfWanted(wanted);
  if (!table.ok) return table;
  const filled = withRules(table.value, text);
  return filled.ok ? done({ ...wantedOfTable(bare, filled.value), expressions: lines }) : filled;
}

const without = (count: number, index: number): number[] => Array.from({ length: count }, (_, i) => i).filter((i) => i !== index);

/** Orders as the old indices in their new order; what is left out is 0 in the rows that stay. */
function moved(wanted: PlanWanted, inputs: readonly number[] | undefined, outputs: readonly number[] | undefined): Outcome<PlanWanted> {
  const pick = <T>(list: readonly T[], order: readonly number[] | undefined): T[] =>
    order ? order.flatMap((i) => (i < list.length ? [list[i] as T] : [])) : [...list];
  const through = (word: number, order: readonly number[] | undefined): number =>
    order ? order.reduce((w, from, to) => w | (((word >> from) & 1) << to), 0) : word;
  const count = inputs?.length ?? wanted.inputs.length;
  const rowAt = (row: number) => (inputs ? inputs.reduce((r, from, to) => r | (((row >> to) & 1) << from), 0) : row);
  const words = (list: readonly number[]) => Array.from({ length: 2 ** count }, (_, row) => through(list[rowAt(row)] ?? 0, outputs));
  return checked({
    ...wanted,
    inputs: pick(wanted.inputs, inputs),
    outputs: pick(wanted.outputs, outputs),
    rows: words(wanted.rows),
    ...(wanted.dontCare ? { dontCare: words(wanted.dontCare) } : {}),
  });
}
