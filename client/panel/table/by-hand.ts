/** What of the table was filled in by hand where its rules say otherwise: which output, which rows, and the act that goes back to the rules. */

import { html, nothing } from 'lit';
import type { PlanWanted } from '../../../shared/plan.ts';
import { sameValue } from '../../../shared/same-value.ts';
import {
  type CellChange,
  cellAt,
  grouped,
  type Outcome,
  type Ruled,
  type RuleException,
  ruledBy,
  ruleExceptions,
  type TruthTable,
} from '../../../sim-core/index.ts';
import { JobClient } from '../../worker/job-client.ts';

/** Rows that are named; of more only their number is told. */
const NAMED = 5;
/** The rules of larger tables are worked out in a worker [rows]. */
const AT_ONCE = 4096;

/** The rules of the table that stands, worked out once for the same text and names. found: called when a worker has done it. */
export function makeRuling(found: () => void) {
  const jobs = new JobClient();
  let of: unknown;
  let ruled: Ruled | undefined;
  const take = (answer: Outcome<Ruled> | undefined) => {
    ruled = answer?.ok ? answer.value : undefined;
  };
  return {
    /** undefined: there are no rules, they cannot be read any more, or they are still being worked out */
    ruling(wanted: PlanWanted): Ruled | undefined {
      const [inputs, outputs] = [wanted.inputs.map((i) => i.name), wanted.outputs.map((o) => o.name)];
      const text = wanted.expressions?.join('\n') ?? '';
      const asked = [inputs, outputs, text];
      if (sameValue(asked, of)) return ruled;
      of = asked;
      ruled = undefined;
      jobs.end();
      if (text === '') return undefined;
      if (2 ** inputs.length <= AT_ONCE) take(ruledBy(inputs, outputs, text));
      else
        void jobs.begin({ job: 'rules', inputs, outputs, text }).then((answer) => {
          if (asked !== of) return;
          take(answer);
          found();
        });
      return ruled;
    },
    close() {
      jobs.close();
      of = '';
    },
  };
}

let known: { readonly table: TruthTable; readonly ruled: Ruled; readonly exceptions: readonly RuleException[] } | undefined;

export function exceptionsOf(table: TruthTable, ruled: Ruled): readonly RuleException[] {
  if (known?.table !== table || known.ruled !== ruled) known = { table, ruled, exceptions: ruleExceptions(table, ruled) };
  return known.exceptions;
}

/** The cells of one output as the rules have them. */
const backToRules = ({ table }: Ruled, { output, rows }: RuleException): readonly CellChange[] =>
  rows.map((row) => ({ row, output, cell: cellAt(table, row, output) }));

/** show: brings a row into sight; back: fills cells. */
export function byHandNote(
  table: TruthTable,
  ruled: Ruled,
  show: (row: number, output: number) => void,
  back: (cells: readonly CellChange[]) => void,
) {
  const exceptions = exceptionsOf(table, ruled);
  if (exceptions.length === 0) return nothing;
  return html`<section class="by-hand" aria-label="Set by hand, against the rules">
    <p>Set by hand, against the rules <span class="by-hand-mark" aria-hidden="true"></span></p>
    <ul>${exceptions.map((d) => {
      const name = table.outputs[d.output];
      const more = d.rows.length - NAMED;
      return html`<li><b>${name}</b> in ${d.rows.length === 1 ? 'row' : 'rows'}
        ${d.rows
          .slice(0, NAMED)
          .map(
            (row, i) =>
              html`${i > 0 ? ', ' : ''}<button type="button" class="plain figures" aria-label="Show row ${row}, ${name}" @click=${() => show(row, d.output)}>${row}</button>`,
          )}${more > 0 ? ` and ${grouped(more)} more` : ''}
        <button type="button" class="tool" aria-label="${name}: back to the rules" @click=${() => back(backToRules(ruled, d))}>Back to the rules</button></li>`;
    })}</ul>
  </section>`;
}
