/** Measurements of the build sheet: what the meter must show before chips go in, and then the chips. */
import { html, nothing } from 'lit';
import { keepsLimits, type PowerCheck, siFormat, type WiringSection } from '../../sim-core/index.ts';
import { wiringTable } from './sheet-tables.ts';

const WHEN: Readonly<Record<PowerCheck['when'], string>> = {
  off: 'Supply off, no chip fitted, all switches open',
  'chips out': 'Supply on, chips still not fitted, all switches open',
  'chips in': 'Chips fitted, supply on',
};

/** Millivolts of a rest are nothing to a meter. */
const small = (value: number, unit: PowerCheck['unit']): string => siFormat(unit === 'V' && Math.abs(value) < 5e-3 ? 0 : value, unit);

function limits({ unit, least, most }: PowerCheck): string {
  if (least !== undefined && most !== undefined) return `${small(least, unit)} to ${small(most, unit)}`;
  if (least !== undefined) return `at least ${small(least, unit)}`;
  return most === undefined ? '' : `at most ${small(most, unit)}`;
}

const table = (when: PowerCheck['when'], checks: readonly PowerCheck[]) =>
  checks.length === 0
    ? nothing
    : html`<table class="sheet-table">
        <caption>${WHEN[when]}</caption>
        <thead><tr><th scope="col">ok</th><th scope="col">red probe</th><th scope="col">black probe</th><th scope="col">expected</th><th scope="col">good if</th><th scope="col">read</th><th scope="col">what for</th></tr></thead>
        <tbody>${checks.map(
          (c) => html`<tr><td><span class="box"></span></td><td><code>${c.red}</code></td><td><code>${c.black}</code></td>
            <td>${c.expects === undefined ? 'open' : small(c.expects, c.unit)}</td><td>${limits(c)}</td><td><span class="blank"></span></td><td>${c.says}${keepsLimits(c) ? nothing : html` <strong>Not as drawn here. Fix the plan first.</strong>`}</td></tr>`,
        )}</tbody>
      </table>`;

export function checksTable(checks: readonly PowerCheck[], chips: WiringSection | undefined) {
  const at = (when: PowerCheck['when']) => checks.filter((c) => c.when === when);
  return html`<p>Expected is what the simulation reads on this bench; good is what the parts' limits allow. If a reading is out, switch off and check the wires of that row.</p>
    ${table('off', at('off'))} ${table('chips out', at('chips out'))}
    ${chips ? html`<p>Supply off again. Pin 1 goes into the hole under “from”.</p>${wiringTable(chips)}` : nothing}
    ${table('chips in', at('chips in'))}`;
}
