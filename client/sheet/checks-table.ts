/** The checks at the end of a stage on paper: where the probes go, what is good, and room for what was read. */
import { html, nothing } from 'lit';
import { type BuildSheet, type CheckLine, checkLines, type StageCheck, sayHow } from '../../sim-core/index.ts';

const line = (l: CheckLine) => html`<tr>
  <td><span class="box"></span></td>
  <td>${l.first ? html`<b>${l.first}</b>: ` : nothing}<code class="places">${l.places}</code></td>
  <td class="good">${l.good}</td>
  <td><span class="blank"></span></td>
  <td>${l.says}${l.drawnWrong ? html` <strong>Not as drawn here. Fix the plan first.</strong>` : nothing}</td>
</tr>`;

export function checksTable(checks: readonly StageCheck[], plusWire: BuildSheet['plusWire']) {
  const lines = checkLines(checks);
  return [...new Set(lines.map((l) => l.by))].map(
    (by) => html`<table class="sheet-table checks">
        <caption>${sayHow(by, plusWire?.id ?? '', plusWire?.hole ?? '')}</caption>
        <thead><tr><th scope="col">ok</th><th scope="col">${by === 'eye' ? 'wire from, to' : 'red probe to black probe'}</th><th scope="col">good if</th><th scope="col">${by === 'eye' ? 'seen' : 'read'}</th><th scope="col">what for</th></tr></thead>
        <tbody>${lines.filter((l) => l.by === by).map(line)}</tbody>
      </table>`,
  );
}
