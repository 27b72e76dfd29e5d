/** The wanted table on the build sheet: in columns of rows, or if it is large as the person has chosen, with the pages that takes said first. */

import { html, nothing } from 'lit';
import type { PlanWanted } from '../../shared/plan.ts';
import { grouped } from '../../sim-core/index.ts';
import { FEW, inputBits, outputBits, pagesOf, rowName, type TableForm, tablePages } from './table-pages.ts';

const pages = (n: number): string => (n === 1 ? '1 page' : `${grouped(n)} pages`);

/** What there is to choose, with what it costs; nothing where the table is short. */
export function tableChoice(wanted: PlanWanted, now: TableForm, choose: (form: TableForm) => void) {
  const all = wanted.rows.length;
  if (all <= FEW) return nothing;
  const forms: ReadonlyArray<readonly [TableForm, string]> = [
    ['first', `the first ${FEW} of ${grouped(all)} rows`],
    ['hex', `all ${grouped(all)} rows as hexadecimal numbers: ${pages(pagesOf(wanted, 'hex'))}`],
    ['bits', `all ${grouped(all)} rows bit by bit: ${pages(pagesOf(wanted, 'bits'))}`],
    ['none', 'not at all'],
  ];
  return html`<label class="table-choice">Truth table
    <select name="table-form" @change=${(e: Event) => choose((e.target as HTMLSelectElement).value as TableForm)}>
      ${forms.map(([form, says]) => html`<option value=${form} ?selected=${form === now}>${says}</option>`)}
    </select></label>`;
}

const IN_HEX =
  ' Hexadecimal. Each line starts with the number of its first row (the inputs as one number), then gives the outputs of that row and the next ones, each as one number. A star: some bits of that digit do not matter.';

export function truthTable(wanted: PlanWanted, form: TableForm) {
  const { inputs, outputs, rows, dontCare: free } = wanted;
  if (form === 'none')
    return html`<section><h2>Truth table</h2><p>Left out: ${grouped(rows.length)} rows. The Table page saves them as a file.</p></section>`;
  const names = (list: ReadonlyArray<{ readonly name: string; readonly activeLow?: true }>) =>
    [...list]
      .reverse()
      .map((l) => `${l.name}${l.activeLow ? ' (active low)' : ''}`)
      .join(', ');
  const lines = html`<p>Inputs, most significant first: ${names(inputs)}. Outputs: ${names(outputs)}. A dash: don't care.</p>`;
  if (form === 'first')
    return html`<section><h2>Truth table</h2>${lines}
      <ol class="truth" style="--bits: ${inputs.length + outputs.length}">${rows.slice(0, FEW).map(
        (value, row) => html`<li><span class="row-number">${row}</span> <code>${inputBits(row, inputs.length)}</code>
          <code>${outputBits(value, free?.[row] ?? 0, outputs.length)}</code></li>`,
      )}</ol>
      ${rows.length > FEW ? html`<p>The first ${FEW} of ${grouped(rows.length)} rows. Choose above to print them all, or save them as a file on the Table page.</p>` : nothing}</section>`;
  return html`<section><h2>Truth table</h2>${lines}
      <p>All ${grouped(rows.length)} rows are on the next ${pages(pagesOf(wanted, form)).replace(/^1 /, '')}.${form === 'hex' ? IN_HEX : ''}</p></section>
    ${tablePages(wanted, form).map(
      ({ from, to, columns }) => html`<section class="dense wide" tabindex="0" aria-label="Rows ${from} to ${to}">
        <h3>Rows ${from} to ${to}${form === 'hex' ? `, ${rowName(from, wanted)} to ${rowName(to, wanted)}` : ''}</h3><div class="dense-columns">${columns.map((text) => html`<pre>${text}</pre>`)}</div></section>`,
    )}`;
}
