/** The programming card of the bench that stands: made once, followed on the bench move by move, and checked after each press. */

import { html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { Plan } from '../../../shared/plan.ts';
import { sameValue } from '../../../shared/same-value.ts';
import { grouped, hex, join, type MemoryCard, type Ref, storing } from '../../../sim-core/index.ts';
import type { Session } from '../../state/session.ts';
import { SessionElement } from '../../state/session-element.ts';
import { pointEvent } from '../../ui/sentence-view.ts';
import { JobClient } from '../../worker/job-client.ts';
import { isWritten, nextMove, poleName, refOf, sayPress, stepNow } from './card-follow.ts';
import { cardList, sayEffort, sayMoves } from './card-list.ts';
import { loading } from './loading.ts';

/** The cards of the bench as it was wired and wanted when they were made. */
interface Made {
  readonly subject: unknown;
  readonly switches: Plan['switches'];
  readonly cards: readonly MemoryCard[];
}

const subjectOf = ({ boards, parts, wires, wanted, title }: Plan): unknown => [
  boards,
  parts.map(({ damaged: _, ...p }) => p),
  wires,
  wanted,
  title,
];

/** Kept while the page is open, so that turning to another page loses nothing. */
let made: Made | undefined;
const ticked = new Map<string, boolean>();
let following = false;

@customElement('card-view')
export class CardView extends SessionElement {
  protected override readonly hears = ['model', 'settled', 'written', 'pins'] as const;
  @state() private refusal = '';
  @state() private working = false;
  /** what went wrong with the last press */
  @state() private wrong = '';
  private readonly jobs = new JobClient();
  /** null: nothing yet */
  private pointedRef: Ref | undefined | null = null;
  private seen: unknown;
  private step = 0;

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.jobs.close();
    this.working = false;
    this.dispatchEvent(pointEvent({ ref: undefined, keep: true }));
  }

  private get card(): MemoryCard | undefined {
    const memories = this.session?.memories ?? {};
    const cards = made?.cards ?? [];
    return cards.find((c) => stepNow(c, memories) < c.steps.length) ?? cards.at(-1);
  }

  private async make(plan: Plan) {
    this.working = true;
    this.refusal = '';
    const answer = await this.jobs.begin({ job: 'card', plan });
    this.working = false;
    if (!answer) return;
    ticked.clear();
    made = { subject: subjectOf(plan), switches: plan.switches, cards: answer.ok ? answer.value : [] };
    this.refusal = answer.ok ? '' : answer.failure.says;
    this.requestUpdate();
  }

  protected override willUpdate() {
    const plan = this.session?.plan;
    if (!plan || this.working) return;
    if (!sameValue(made?.subject, subjectOf(plan))) void this.make(plan);
    this.look();
  }

  /** After a press: was it the byte that the card asked for? */
  private look() {
    const { session, card } = this;
    if (!session || !card || session.writes === this.seen) return;
    const first = this.seen === undefined;
    this.seen = session.writes;
    const before = this.step;
    this.step = stepNow(card, session.memories);
    const writes = session.writes.filter((w) => w.part === card.memory);
    if (!first && writes.length > 0) this.wrong = sayPress(card, before, this.step, writes);
  }

  protected override updated() {
    const { session, card } = this;
    const { readings } = session ?? {};
    const ref =
      following && card && session && readings && made ? refOf(nextMove(card, made.switches, session.memories, readings)) : undefined;
    if (sameValue(ref, this.pointedRef)) return;
    this.pointedRef = ref;
    this.dispatchEvent(pointEvent({ ref, keep: true }));
  }

  /** Erased memories in the places of those that hold everything already; the next card is for them. */
  private erase(plan: Plan) {
    const full = made?.cards.map((c) => c.memory) ?? [];
    this.session?.edit(join(...full.map((id) => storing(plan, id, undefined))));
    made = undefined;
  }

  private loading(session: Session, look: 'act' | 'plain') {
    return loading(session, look, (says) => {
      this.refusal = says;
    });
  }

  private follow(is: boolean) {
    following = is;
    this.wrong = '';
    this.requestUpdate();
    if (is) void this.updateComplete.then(() => this.querySelector('.follow')?.scrollIntoView({ block: 'nearest' }));
  }

  protected override render() {
    const { session, card } = this;
    const { model } = session ?? {};
    const plan = session?.plan;
    if (!session || !model || !plan) return nothing;
    if (this.refusal)
      return html`<h2 class="headline">There is no card for this bench.</h2><p>${this.refusal}</p>
        ${this.loading(session, 'act')}`;
    if (!card || !made) return html`<p role="status">Searching for the order with the fewest moves …</p>`;
    const open = made.cards.reduce((n, c) => n + c.steps.filter((s) => !isWritten(session.memories, s)).length, 0);
    const total = made.cards.reduce((n, c) => n + c.steps.length, 0);
    // the next move comes first: on a telephone little more than it is in sight
    return html`${following ? this.now(card) : nothing}
      <h2 class="headline">${total === 0 ? 'Every byte of the table is stored.' : open === 0 ? `All ${grouped(total)} bytes are written.` : `${grouped(open)} of ${grouped(total)} bytes still to write.`}</h2>
      ${total > 0 ? made.cards.map((c) => html`<p>${made && made.cards.length > 1 ? `${c.memory}: ` : ''}${sayEffort(c, plan.wanted?.rows.length)}</p>`) : nothing}
      <p class="acts">
        ${
          open > 0 || (following && total > 0)
            ? html`<button type="button" class="act" aria-pressed=${following} @click=${() => this.follow(!following)}>${following ? 'Stop following' : 'Follow the card'}</button>
                <button type="button" class="plain" @click=${() => void this.make(plan)}>Make the card again from the present bytes</button>`
            : html`<button type="button" class="act" @click=${() => this.erase(plan)}>Insert an erased memory</button>`
        }
        <a class="plain" href="#sheet/card">Print the card</a>
      </p>
      ${this.loading(session, 'plain')}
      ${made.cards.map((c) =>
        c.steps.length === 0
          ? nothing
          : html`<h3 class="section">${c.memory}: first ${sayMoves(c.toWrite, model)}</h3>
            ${cardList(c, model, {
              done: (k) => ticked.get(`${c.memory} ${k}`) ?? (c.steps[k] !== undefined && isWritten(session.memories, c.steps[k])),
              ...(following && c === card ? { now: stepNow(c, session.memories) } : {}),
              tick: (k, is) => {
                ticked.set(`${c.memory} ${k}`, is);
                this.requestUpdate();
              },
            })}
            <p class="quiet">To read back: ${sayMoves(c.toRead, model)}.</p>`,
      )}`;
  }

  /** The next move in words; the bench rings it. */
  private now(card: MemoryCard) {
    const { session } = this;
    const { model, readings } = session ?? {};
    if (!session || !model || !readings || !made) return nothing;
    const move = nextMove(card, made.switches, session.memories, readings);
    const done = stepNow(card, session.memories);
    const words = () => {
      if (move.do === 'supply') return html`Turn the supply on.`;
      if (move.do === 'press')
        return html`Press ${move.part} and release it: ${hex(move.step.byte, 2)} goes to 0x${hex(move.step.address, 3)}.`;
      if (move.do === 'nothing')
        return html`All bytes are written and the switches are set for reading. Set the inputs and look, or prove all rows.`;
      const [first] = move.poles;
      return first ? html`${first.closed ? 'Close' : 'Open'} ${poleName(first, model)}.` : html``;
    };
    return html`<div class="follow" role="status">
      <p class="follow-now">${words()}</p>
      <p class="figures">byte ${Math.min(done + 1, card.steps.length)} of ${card.steps.length}${move.do === 'poles' && move.poles.length > 1 ? `, then ${move.poles.length - 1} more ${move.poles.length === 2 ? 'pole' : 'poles'}` : ''}</p>
      ${this.wrong ? html`<p class="follow-wrong">${this.wrong}</p>` : nothing}
    </div>`;
  }
}
