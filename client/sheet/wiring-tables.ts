/** The wiring list of the build sheet: a table a section, parts before wires, each line with a box to tick. */
import { html } from 'lit';
import type { WiringLine, WiringSection } from '../../sim-core/index.ts';

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
