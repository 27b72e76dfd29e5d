/** Rows of the lists and the bench pick each other out: a row under the pointer or the focus rings its thing and its nets, and the other way round. */
import { html } from 'lit';
import { Directive, directive, type ElementPart, type PartInfo, PartType } from 'lit/directive.js';
import type { Ref } from '../../../sim-core/index.ts';
import { pointEvent, viewSentence } from '../../ui/sentence-view.ts';

/** Asks the bench to pick out nets; none lets go. */
const netsEvent = (nets: readonly number[]) =>
  new CustomEvent<readonly number[]>('pick-nets', { detail: nets, bubbles: true, composed: true });

class RowEvents extends Directive {
  private ref: Ref | undefined;
  private nets: readonly number[] = [];
  private tied = false;

  constructor(info: PartInfo) {
    super(info);
    if (info.type !== PartType.ELEMENT) throw new Error("rowEvents stands in a row's opening tag");
  }

  render(_ref: Ref | undefined, _nets: readonly number[]) {
    return undefined;
  }

  override update({ element }: ElementPart, [ref, nets]: [Ref | undefined, readonly number[]]) {
    [this.ref, this.nets] = [ref, nets];
    if (this.tied) return;
    this.tied = true;
    const pick = () => {
      if (this.ref) element.dispatchEvent(pointEvent({ ref: this.ref, keep: false }));
      element.dispatchEvent(netsEvent(this.nets));
    };
    const letGo = () => {
      element.dispatchEvent(pointEvent({ ref: undefined, keep: false }));
      element.dispatchEvent(netsEvent([]));
    };
    element.addEventListener('pointerenter', pick);
    element.addEventListener('pointerleave', letGo);
    element.addEventListener('focusin', pick);
    element.addEventListener('focusout', letGo);
  }
}

export const rowEvents = directive(RowEvents);

export const rowNoun = (kind: Ref['kind'], id: string) => html`${viewSentence([{ text: id, ref: { kind, id } }])}`;
