/** The programming card as pages of its own: for what is still to be written, or for an erased memory. */
import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Plan } from '../../shared/plan.ts';
import type { MemoryCard } from '../../sim-core/index.ts';
import type { Session } from '../state/session.ts';
import { LightElement } from '../ui/light-element.ts';
import { cardPages, type ErasedCard, erasedCard } from './card-pages.ts';
import { PaperChoice } from './paper.ts';
import { SheetWork } from './sheet-work.ts';

interface Content {
  readonly plan: Plan;
  /** those of the bench as it stands, and those for the same bench with nothing in its memories */
  readonly open: readonly MemoryCard[];
  readonly whole: ErasedCard;
}

@customElement('card-sheet')
export class CardSheetPage extends LightElement {
  @property({ attribute: false }) session: Session | undefined;
  @state() private content: Content | undefined;
  @state() private refusal = '';
  /** for an erased memory */
  @state() private whole = false;
  private readonly paper = new PaperChoice(this);
  private readonly work = new SheetWork(
    this,
    () => this.session,
    (plan) => this.compose(plan),
  );

  private async compose(plan: Plan) {
    const open = await this.work.jobs.begin({ job: 'card', plan });
    const whole = await erasedCard(this.work.jobs, plan);
    if (!open || !whole) return;
    if (!open.ok) this.refusal = open.failure.says;
    else if (!whole.ok) this.refusal = whole.failure.says;
    else {
      const withBytes = (cards: readonly MemoryCard[]) => cards.filter((c) => c.steps.length > 0);
      this.content = { plan, open: withBytes(open.value), whole: { ...whole.value, cards: withBytes(whole.value.cards) } };
      this.whole = this.content.open.length === 0;
    }
    await this.updateComplete;
    this.querySelector('h1')?.focus();
  }

  protected override render() {
    const { content } = this;
    return html`${this.paper.bar('#build/card', content !== undefined, content ? this.choice(content) : nothing)}
      <article class="pages">${
        content
          ? this.pages(content)
          : html`<h1 tabindex="-1">Programming card</h1><p role="status">${this.refusal ? `There is no card for this bench. ${this.refusal}` : 'Searching for the order with the fewest moves …'}</p>`
      }</article>`;
  }

  private choice({ open }: Content) {
    const either = (whole: boolean, says: string) =>
      html`<label><input type="radio" name="bytes" .checked=${whole === this.whole} @change=${() => {
        this.whole = whole;
      }} /> ${says}</label>`;
    return open.length === 0
      ? nothing
      : html`<fieldset><legend class="visually-hidden">Bytes</legend>${either(false, 'what is still to be written')} ${either(true, 'all bytes, for an erased memory')}</fieldset>`;
  }

  private pages({ plan, open, whole }: Content) {
    const { model } = this.session ?? {};
    if (!model) return nothing;
    return html`<header><p class="over">Programming card${this.whole ? ', for an erased memory' : ''}</p><h1 tabindex="-1">${plan.title}</h1></header>
      ${this.whole && open.length === 0 ? html`<p class="on-screen">On this bench every byte is stored. This card is for an erased memory.</p>` : nothing}
      ${cardPages(this.whole ? whole.cards : open, this.whole ? whole.switches : plan.switches, model, (memory) => html`<h2>${memory}</h2>`)}
      <p>Written and read back: date and name ______________________________</p>`;
  }
}
