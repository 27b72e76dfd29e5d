/** The fixes of a finding as buttons that say exactly what they do; each is one edit and one undo. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Change } from '../../sim-core/index.ts';

/** A change, and the words of its button. */
interface OfferedFix {
  readonly says: string;
  readonly change: Change;
}

export function fixButtons(fixes: readonly OfferedFix[], edit: (change: Change) => void): TemplateResult | typeof nothing {
  if (fixes.length === 0) return nothing;
  return html`<div class="cures">
    ${fixes.map(({ says, change }) => html`<button type="button" class="cure" @click=${() => edit(change)}>${says}</button>`)}
  </div>`;
}
