/** The tables of the build sheet: its parts with how many and what they are called, and what is put down in a stage, each line with a box to tick. */
import { html, nothing } from 'lit';
import type { PartsLine, StageStep } from '../../sim-core/index.ts';

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

/** So few lines stay on one page. */
const SHORT = 12;

const step = (s: StageStep) =>
  s.put === 'part'
    ? html`<tr><td><span class="box"></span></td><td></td><th scope="row">${s.id}</th><td>${s.places.length > 2 ? html`<code>${s.places[0]}</code> …` : s.places.map((p, i) => html`${i > 0 ? ' ' : ''}<code>${p}</code>`)}</td><td>${[s.title, s.value].filter(Boolean).join(', ')}${s.bands ? html` <span class="bands">${s.bands.join(' ')}</span>` : nothing}${s.label ? ` (${s.label})` : ''}</td><td>${s.says}</td></tr>`
    : html`<tr><td><span class="box"></span></td><td class="disc-cell"><span class="disc">${s.number}</span></td><th scope="row">${s.id}</th><td><code>${s.places[0]}</code> <code>${s.places[1]}</code></td><td>${s.colour}</td><td>${s.says}</td></tr>`;

/** What is put down in a stage, each line with a box to tick; the number is the one on the picture. */
export const stepsTable = (
  steps: readonly StageStep[],
  title: string,
) => html`<table class="sheet-table steps ${steps.length <= SHORT ? 'short' : ''}">
  <caption class="visually-hidden">${title}</caption>
  <thead><tr><th scope="col">in</th><th scope="col">no.</th><th scope="col">name</th><th scope="col">holes</th><th scope="col">what</th><th scope="col">from, to; which way round</th></tr></thead>
  <tbody>${steps.map(step)}</tbody>
</table>`;
