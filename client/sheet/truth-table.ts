/** The wanted table on the build sheet, in two columns of rows where there are many. */
import { html, nothing } from 'lit';
import type { PlanWanted } from '../../shared/plan.ts';

/** Rows that are printed; the whole of a larger table is a file, not paper. */
const PRINTED = 256;

export function truthTable(wanted: PlanWanted) {
  const { inputs, outputs, rows, free } = wanted;
  const bit = (value: number, i: number) => String((value >> i) & 1);
  const from = (list: readonly unknown[]) => list.map((_, i) => list.length - 1 - i);
  return html`<p>Inputs, left to right: ${from(inputs)
    .map((i) => inputs[i]?.name)
    .join(', ')}. Outputs: ${from(outputs)
    .map((i) => `${outputs[i]?.name}${outputs[i]?.activeLow ? ' (active low)' : ''}`)
    .join(', ')}. A dash: it does not matter.</p>
    <ol class="truth">${rows.slice(0, PRINTED).map(
      (value, row) => html`<li><span class="row-number">${row}</span> <code>${from(inputs)
        .map((i) => bit(row, i))
        .join('')}</code>
        <code>${from(outputs)
          .map((i) => (((free?.[row] ?? 0) >> i) & 1 ? '–' : bit(value, i)))
          .join('')}</code></li>`,
    )}</ol>
    ${rows.length > PRINTED ? html`<p>The first ${PRINTED} of ${rows.length} rows; the page Table saves all of them as a file.</p>` : nothing}`;
}
