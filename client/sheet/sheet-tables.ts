/** The tables of the build sheet: its parts with how many and what they are called, and the wiring by sections, each line with a box to tick. */
import { html } from 'lit';
import type { PartsLine, WiringLine, WiringSection } from '../../sim-core/index.ts';

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

const HEADS: Readonly<Record<WiringSection['section'], string>> = {
  power: '1. Power',
  memory: '2. At the memories: supply and decoupling',
  enables: '3. Enables',
  inputs: '4. Inputs',
  outputs: '5. Outputs',
  writing: '6. Writing',
  chips: 'Chips',
};

const line = (l: WiringLine) =>
  l.put === 'part'
    ? html`<tr><td><span class="box"></span></td><th scope="row">${l.id}</th><td><code>${l.at}</code></td><td><code>${l.to ?? ''}</code></td><td></td><td>${l.says}</td></tr>`
    : html`<tr><td><span class="box"></span></td><th scope="row">${l.id}</th><td><code>${l.from}</code></td><td><code>${l.to}</code></td><td>${l.colour}</td><td>${l.says}</td></tr>`;

/** So few lines stay on one page. */
const SHORT = 12;

export const wiringTable = ({
  section,
  lines,
}: WiringSection) => html`<table class="sheet-table wiring-lines ${lines.length <= SHORT ? 'short' : ''}">
  <caption>${HEADS[section]}</caption>
  <thead><tr><th scope="col">in</th><th scope="col">name</th><th scope="col">from</th><th scope="col">to</th><th scope="col">colour</th><th scope="col">what for</th></tr></thead>
  <tbody>${lines.map(line)}</tbody>
</table>`;

export const wiringTables = (sections: readonly WiringSection[]) => sections.map(wiringTable);
