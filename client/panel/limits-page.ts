/** The page *Limits*: what the simulation computes, and what it leaves out and when that matters. */
import { html } from 'lit';
import { customElement } from 'lit/decorators.js';
import { capitalised, LIMITS, limitSays, MODELLED } from '../../sim-core/index.ts';
import { LightElement } from '../ui/light-element.ts';
import { hashOf } from '../ui/route.ts';

/** The way to this page from the foot of another. */
export const toLimits = () => html`<p class="to-limits"><a href=${hashOf({ page: 'limits' })}>What is computed, and what is not</a></p>`;

@customElement('limits-page')
export class LimitsPage extends LightElement {
  protected override render() {
    return html`<h2 class="headline" id="limits-title">Limits of what is computed</h2>
      <p class="quiet">A simulation cannot prove that a real bench is safe or right. It can differ here:</p>
      <h3 class="section">Left out</h3>
      <ul class="limits">
        ${LIMITS.map((l) => html`<li><strong>${l.name}</strong> ${capitalised(limitSays(l))}</li>`)}
      </ul>
      <h3 class="section">Computed</h3>
      <ul class="limits">
        ${MODELLED.map((m) => html`<li><strong>${m.name}</strong> ${capitalised(m.says)}</li>`)}
      </ul>`;
  }
}
