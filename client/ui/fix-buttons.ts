/** The cures of a finding as buttons that say exactly what they do; each is one edit and one undo. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Session } from '../state/session.ts';
import type { SaidFinding } from '../worker/protocol.ts';

export function fixButtons({ cures }: SaidFinding, session: Session | undefined): TemplateResult | typeof nothing {
  if (cures.length === 0) return nothing;
  return html`<div class="cures">
    ${cures.map((cure) => html`<button type="button" class="cure" @click=${() => session?.edit(cure.change)}>${cure.says}</button>`)}
  </div>`;
}
