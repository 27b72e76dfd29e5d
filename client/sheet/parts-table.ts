/** The parts list of the build sheet: how many, what, which value, which colour bands, and what they are called on the plan. */
import { html } from 'lit';
import type { PartsLine } from '../../sim-core/index.ts';

/** Wires are many: their names do not help to cut them. */
const NAMED = 24;

export const partsTable = (parts: readonly PartsLine[]) => html`<table class="sheet-table">
  <caption class="visually-hidden">Parts</caption>
  <thead><tr><th scope="col">have</th><th scope="col">how many</th><th scope="col">what</th><th scope="col">value</th><th scope="col">colour bands</th><th scope="col">on the plan</th></tr></thead>
  <tbody>${parts.map(
    (l) => html`<tr>
      <td><span class="box"></span></td>
      <td class="number">${l.quantity}</td>
      <th scope="row">${l.title}</th>
      <td class="value">${[l.value, l.tolerance === undefined ? '' : `± ${l.tolerance} %`].filter(Boolean).join(' ')}</td>
      <td>${l.bands?.join(' ') ?? ''}</td>
      <td class="ids">${l.ids.slice(0, NAMED).join(' ')}${l.ids.length > NAMED ? ' …' : ''}</td>
    </tr>`,
  )}</tbody>
</table>`;
