/** A truth table from rules: every row worked out, and what does not fit into an output told with its row. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { BLOCK, Compiler, whyUndefined } from './expression/evaluate.ts';
import { type RuleLine, readRules } from './expression/rules.ts';
import { emptyTable, rowsOf, type TruthTable } from './truth-table.ts';

/** The table with what the rules give; outputs and rows without a rule stay as they are. Fails with `rules/…`. */
export function withRules(table: TruthTable, text: string): Outcome<TruthTable> {
  const rules = readRules(text, table.inputs, table.outputs);
  if (!rules.ok) return rules;
  const { gives, frees } = rules.value;
  const values = table.values.slice();
  const dontCare = table.dontCare.slice();
  const compiler = new Compiler();
  const givers = gives.map((rule) => ({ rule, column: compiler.column(rule.expression) }));
  const freers = frees.map((rule) => ({ mask: maskOf(rule), column: compiler.column(rule.expression) }));
  const given = gives.reduce((mask, rule) => mask | maskOf(rule), 0);

  for (let first = 0; first < rowsOf(table); first += BLOCK) {
    const count = Math.min(BLOCK, rowsOf(table) - first);
    for (let r = first; r < first + count; r++) dontCare[r] = (dontCare[r] ?? 0) & ~given;
    for (const { mask, column } of freers) {
      const is = column(first, count);
      // a condition without an answer frees nothing
      for (let i = 0; i < count; i++) if (is[i] === 1) dontCare[first + i] = (dontCare[first + i] ?? 0) | mask;
    }
    for (const { rule, column } of givers) {
      const bad = place(rule, column(first, count), first, count, values, dontCare);
      if (bad >= 0) return refusal(table, rule, bad, column(first, count)[bad - first] ?? Number.NaN);
    }
    for (let r = first; r < first + count; r++) values[r] = (values[r] ?? 0) & ~(dontCare[r] ?? 0);
  }
  return done({ ...table, values, dontCare });
}

/** A new table of these names; outputs without a rule are free. Fails with `rules/…`, `table/bad-name` or `table/name-taken`. */
export function tableOfRules(inputs: readonly string[], outputs: readonly string[], text: string): Outcome<TruthTable> {
  const empty = emptyTable(inputs, outputs);
  return empty.ok ? withRules(empty.value, text) : empty;
}

const maskOf = (rule: RuleLine): number => rule.outputs.reduce((mask, o) => mask | (1 << o), 0);

/** Puts a block of results into the words; answers the first row whose result does not fit and matters, or -1. */
function place(rule: RuleLine, results: Float64Array, first: number, count: number, values: Uint16Array, dontCare: Uint16Array): number {
  const mask = maskOf(rule);
  const { outputs } = rule;
  const top = outputs.length - 1;
  const [only = 0] = outputs;
  const most = 2 ** outputs.length - 1;
  for (let i = 0; i < count; i++) {
    const row = first + i;
    const v = results[i] ?? Number.NaN;
    if (!(v >= 0 && v <= most)) {
      if (((dontCare[row] ?? 0) & mask) !== mask) return row;
      continue;
    }
    let word = (values[row] ?? 0) & ~mask;
    if (top === 0) word |= v << only;
    else for (let k = 0; k <= top; k++) if ((v >>> (top - k)) & 1) word |= 1 << (outputs[k] ?? 0);
    values[row] = word;
  }
  return -1;
}

function refusal(table: TruthTable, rule: RuleLine, row: number, result: number): Outcome<never> {
  const at = `line ${rule.line}`;
  const when = table.inputs
    .map((name, i) => `${name}=${(row >>> i) & 1}`)
    .reverse()
    .join(' ');
  const names = rule.outputs.map((o) => table.outputs[o]);
  const many = names.length > 1;
  const most = 2 ** names.length - 1;
  if (Number.isNaN(result))
    return failed(
      'rules/undefined-row',
      at,
      `${at}: in row ${row} (${when}) ${whyUndefined(rule.expression, row)}. Say "dontcare when …" for such rows, or use if … then … else.`,
    );
  const holds = many ? `${names.join(' ')} hold 0 to ${most}` : `${names[0]} holds 0 or 1`;
  const cure =
    result < 0 || many
      ? `Write ( … ) mod ${most + 1}, or give it more outputs`
      : 'Compare it, such as T > 25, or take one bit, such as T[0]';
  return failed(
    'rules/does-not-fit',
    at,
    `${at}: ${holds}, but in row ${row} (${when}) the rule gives ${result}. ${cure}, or say "dontcare when …".`,
  );
}
