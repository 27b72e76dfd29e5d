/** Where a table says otherwise than the rules that it was filled by: cells that a hand has filled in since. */
import { done, type Outcome } from '../../shared/outcome.ts';
import { readRules } from './expression/rules.ts';
import { tableOfRules } from './rules-table.ts';
import type { TruthTable } from './truth-table.ts';

/** What rules say of a table of these names. */
export interface Ruled {
  readonly table: TruthTable;
  /** outputs that a rule gives, a bit each */
  readonly outputs: number;
}

/**
 * The table that rules give, to be held against one with cells filled in by hand.
 * Fails with `rules/…`, `table/bad-name` or `table/name-taken`.
 */
export function ruledBy(inputs: readonly string[], outputs: readonly string[], text: string): Outcome<Ruled> {
  const rules = readRules(text, inputs, outputs);
  if (!rules.ok) return rules;
  const table = tableOfRules(inputs, outputs, text);
  if (!table.ok) return table;
  const given = rules.value.gives.flatMap((rule) => rule.outputs).reduce((mask, o) => mask | (1 << o), 0);
  return done({ table: table.value, outputs: given });
}

/** Bits of a row that are not as the rules have them; a free cell where they give a value departs as well, and so does a value where they leave it free. */
export const exceptionBits = ({ values, dontCare }: TruthTable, { table, outputs }: Ruled, row: number): number =>
  (((values[row] ?? 0) ^ (table.values[row] ?? 0)) | ((dontCare[row] ?? 0) ^ (table.dontCare[row] ?? 0))) & outputs;

/** A row in which a cell filled in by hand differs from its rule. */
export interface RuleException {
  readonly output: number;
  /** ascending */
  readonly rows: readonly number[];
}

/** By output, those that depart only. */
export function ruleExceptions(table: TruthTable, ruled: Ruled): readonly RuleException[] {
  const rows = table.outputs.map((): number[] => []);
  for (let row = 0; row < table.values.length; row++) {
    const bits = exceptionBits(table, ruled, row);
    for (let output = 0; bits >> output !== 0; output++) if ((bits >> output) & 1) rows[output]?.push(row);
  }
  return rows.flatMap((list, output) => (list.length > 0 ? [{ output, rows: list }] : []));
}
