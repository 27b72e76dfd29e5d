/** Whether wires and rails have resistance, and what that did to the supply of each chip at the last action. */
import { html, nothing } from 'lit';
import { type Readings, setField, siFormat } from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';
import type { Session } from '../../state/session.ts';
import { viewSentence } from '../../ui/sentence-view.ts';

type Chip = Readings['chips'][number];

export function wiringChoice(session: Session, { plan }: BenchModel) {
  const real = plan.wiring === 'real';
  const dipped = (session.readings?.chips ?? []).filter((c) => c.dip);
  return html`<label class="model-choice">
      <input type="checkbox" .checked=${real} @change=${(e: Event) => {
        if (e.target instanceof HTMLInputElement) session.edit(setField(plan, 'wiring', e.target.checked ? 'real' : undefined));
      }}>
      <span>Wires and rails have resistance<span class="model-note">${real ? 'each chip shows how far its supply dips; inductance is left out' : 'now ideal'}</span></span>
    </label>
    <label class="model-choice">
      <input type="checkbox" .checked=${plan.outputs === 'guaranteed'} @change=${(e: Event) => {
        if (e.target instanceof HTMLInputElement) session.edit(setField(plan, 'outputs', e.target.checked ? 'guaranteed' : undefined));
      }}>
      <span>Outputs as guaranteed, not as typical<span class="model-note">${plan.outputs === 'guaranteed' ? 'what works now works with any part' : 'now typical'}</span></span>
    </label>
    ${dipped.length > 0 ? html`<ul class="dips">${dipped.map((c) => html`<li>${dipSays(c)}</li>`)}</ul>` : nothing}`;
}

const dipSays = ({ part, dip }: Chip) =>
  dip
    ? html`${viewSentence([{ text: part, ref: { kind: 'part', id: part } }])} supply dipped to ${siFormat(dip.low, 'V')} for ${siFormat(dip.seconds, 's')} at the last action`
    : nothing;
