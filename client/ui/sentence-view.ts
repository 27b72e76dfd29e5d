/** Sentences on the page: their nouns are buttons that point at the thing on the bench. */
import { html, type TemplateResult } from 'lit';
import type { Ref, Sentence } from '../../sim-core/index.ts';

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
