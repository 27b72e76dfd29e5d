/** Sentences on the page: their nouns are buttons that point at the thing on the bench; fixes are buttons that say exactly what they do. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Change, Ref, Sentence } from '../../sim-core/index.ts';

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

/** Asks the bench to ring a thing; undefined takes the ring away. `keep`: a click, which stays. */
export interface PointAtRef {
  readonly ref: Ref | undefined;
  readonly keep: boolean;
}

export const pointEvent = (detail: PointAtRef) => new CustomEvent<PointAtRef>('point', { detail, bubbles: true, composed: true });

export const viewSentence = (sentence: Sentence): TemplateResult =>
  html`${sentence.map((word) =>
    typeof word === 'string'
      ? word
      : html`<button
          type="button"
          class="noun"
          @click=${(e: Event) => e.target?.dispatchEvent(pointEvent({ ref: word.ref, keep: true }))}
          @pointerenter=${(e: Event) => e.target?.dispatchEvent(pointEvent({ ref: word.ref, keep: false }))}
          @pointerleave=${(e: Event) => e.target?.dispatchEvent(pointEvent({ ref: undefined, keep: false }))}
        >${word.text}</button>`,
  )}`;
