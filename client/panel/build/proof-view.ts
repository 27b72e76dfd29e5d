/** The proof of the bench that stands: every row through switches, levels and LEDs; the first difference explained; and a signature for the sheet. */
import { html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { Plan, PlanProof } from '../../../shared/plan.ts';
import { sameValue } from '../../../shared/same-value.ts';
import {
  asMeant,
  capitalised,
  type Difference,
  grouped,
  keepAsMeant,
  ledsOfOutput,
  type PoleAt,
  plain,
  sayCounts,
  sayDisabled,
  sayPercent,
  sayRight,
  sayRowOff,
  sayTriedOn,
  setField,
  signedProof,
  type TableProof,
} from '../../../sim-core/index.ts';
import { SessionElement } from '../../state/session-element.ts';
import { go } from '../../ui/route.ts';
import { JobClient } from '../../worker/job-client.ts';
import './repair-view.ts';
import { dateOf, proofBesideBench, sayOutdated, sayOutdatedFirst, signedOf, today } from './proofs.ts';

const TOLD = 12;

@customElement('proof-view')
export class ProofView extends SessionElement {
  protected override readonly hears = ['model', 'written', 'history', 'settled'] as const;
  @state() private seen = 0;
  @state() private of = 0;
  /** of: the bench that was proven, as it would be signed */
  @state() private proven: { readonly proof: TableProof; readonly plan: Plan; readonly of: PlanProof } | undefined;
  /** switches that were asked to be set before it is proven again */
  private awaited: readonly PoleAt[] = [];
  @state() private refusal = '';
  @state() private busy = false;
  private readonly jobs = new JobClient((part) => {
    this.seen = Math.round(part * this.of);
  });

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.jobs.close();
  }

  private get signed() {
    const plan = this.session?.plan;
    return plan && signedOf(plan);
  }

  protected override willUpdate() {
    const plan = this.session?.plan;
    if (plan && this.proven && !proofBesideBench(this.proven.of, plan).holds) this.proven = undefined;
    if (plan && this.awaited.length > 0 && this.awaited.every((p) => (plan.switches[p.part]?.[p.pole] ?? false) === p.closed)) {
      this.awaited = [];
      void this.prove(plan);
    }
  }

  private set(poles: readonly PoleAt[]) {
    for (const { part, pole, closed } of poles) this.session?.act({ do: 'set', part, pole, closed });
  }

  private async prove(plan: Plan) {
    this.refusal = '';
    this.proven = undefined;
    this.seen = 0;
    this.of = plan.wanted?.rows.length ?? 0;
    this.busy = true;
    const answer = await this.jobs.begin({ job: 'prove', plan });
    this.busy = false;
    if (!answer) return;
    if (answer.ok) this.proven = { proof: answer.value, plan, of: signedProof(plan, { date: today(), by: '' }, answer.value.inputs) };
    else this.refusal = answer.failure.says;
  }

  private sign(e: SubmitEvent, { of }: NonNullable<ProofView['proven']>) {
    e.preventDefault();
    const by = String(new FormData(e.target as HTMLFormElement).get('by') ?? '').trim();
    const now = this.session?.plan;
    if (now) this.session?.edit(setField(now, 'proof', { ...of, date: today(), by }));
  }

  /** Sets the bench to the row and asks why of the first LED that is not as wanted. */
  private why({ row, wrong, unknown }: Difference, { inputs }: TableProof) {
    const { session } = this;
    const { model } = session ?? {};
    if (!session || !model) return;
    for (const s of session.readings?.supplies ?? []) if (!s.on) session.act({ do: 'set', part: s.part, pole: 0, closed: true });
    for (const [i, { part, pole, highWhenClosed }] of inputs.entries()) {
      const closed = (((row >> i) & 1) === 1) === highWhenClosed;
      if ((session.readings?.switches[part]?.[pole] ?? false) !== closed) session.act({ do: 'set', part, pole, closed });
    }
    const bit = 31 - Math.clz32((wrong | unknown) & -(wrong | unknown));
    const output = model.plan.wanted?.outputs[bit];
    const [led] = output ? ledsOfOutput(model.plan, output) : [];
    if (led) go({ page: 'why', about: led });
  }

  protected override render() {
    const plan = this.session?.plan;
    if (!plan) return nothing;
    if (!plan.wanted)
      return html`<h2 class="headline">Nothing to prove yet.</h2><p>This bench has no truth table. Say what the LEDs are to show on the Table page.</p>`;
    return html`${this.state()}
      <p class="acts">${
        this.busy
          ? html`<button type="button" class="act" @click=${() => this.jobs.end()}>Stop</button>`
          : html`<button type="button" class=${this.proven?.proof.disabled.length ? 'tool' : 'act'} @click=${() => void this.prove(plan)}>${this.proven ? 'Prove again' : 'Prove all rows'}</button>`
      }</p>
      <p class="quiet">Sets each row of the table with the bench's own switches, supply on, all other switches as they are, and compares what the LEDs show with what is wanted. It runs on a copy of the bench.</p>
      ${this.differences()}
      ${this.keeping()} ${this.signing()}`;
  }

  private state() {
    const plan = this.session?.plan;
    if (!plan) return nothing;
    if (this.refusal) return html`<h2 class="headline">This bench cannot be proven yet.</h2><p role="alert">${this.refusal}</p>`;
    if (this.busy)
      return html`<h2 class="headline">${grouped(this.seen)} of ${grouped(this.of)} rows seen</h2>
        <progress aria-label="Rows seen" max=${Math.max(1, this.of)} value=${this.seen}></progress>`;
    if (this.proven) {
      const { right, rows, notAsked, notWritten, disabled, off = [] } = this.proven.proof;
      if (right < rows && disabled.length > 0)
        return html`<h2 class="headline" role="status">${`${sayRight(right - notAsked, rows - notAsked)}: ${plain(sayDisabled(disabled, this.proven.plan))}.`}</h2>
          <p class="acts"><button type="button" class="act" @click=${() => {
            this.awaited = disabled;
            this.set(disabled);
          }}>${disabled.length > 1 ? 'Set them for reading' : disabled[0]?.closed ? 'Close it' : 'Open it'}, and prove again</button></p>`;
      return html`<h2 class="headline" role="status">${right === rows ? `All ${grouped(rows - notAsked)} rows are right: 100 %.` : `${sayRight(right - notAsked, rows - notAsked)}: ${sayPercent(right - notAsked, rows - notAsked)}.`}</h2>
        ${notAsked + notWritten > 0 ? html`<p class="quiet">${sayCounts(this.proven.proof)}.</p>` : nothing}
        ${off.length > 0 ? html`<p>${sayTriedOn(off)}</p>` : nothing}`;
    }
    const signed = this.signed;
    if (signed)
      return signed.holds
        ? html`<h2 class="headline">Proven on ${dateOf(signed.proof)}: all ${grouped(signed.proof.rows)} rows.</h2>`
        : html`<h2 class="headline">${sayOutdatedFirst(signed)}</h2><p>${sayOutdated(signed, plan)} ${signed.same ? '' : 'Undo the change, and the proof is valid again.'}</p>
          ${
            signed.same
              ? html`<p class="acts"><button type="button" class="plain" @click=${() => this.set(signed.moved)}>Set ${signed.moved.length > 1 ? 'them' : 'it'} back</button></p>`
              : nothing
          }`;
    return html`<h2 class="headline">Not proven yet.</h2>`;
  }

  private differences() {
    if (!this.proven) return nothing;
    const { proof, plan } = this.proven;
    const [first] = proof.differences;
    if (!first) return nothing;
    const more = proof.rows - proof.right - TOLD;
    return html`${(proof.explained ?? []).map((says) => html`<p>${says}</p>`)}
      <p class="acts"><button type="button" class="plain" @click=${() => this.why(first, proof)}>Set row ${first.row} and ask why</button></p>
      <ul class="things">${proof.differences.slice(0, TOLD).map((d) => html`<li>${capitalised(sayRowOff(d, plan))}.</li>`)}</ul>
      ${more > 0 ? html`<p class="quiet">and ${grouped(more)} more ${more === 1 ? 'row' : 'rows'}</p>` : nothing}
      <repair-view .session=${this.session} .plan=${plan}></repair-view>`;
  }

  /** A bench all of whose rows are right may be kept, signed or not. */
  private keeping() {
    const { proven, signed } = this;
    const plan = this.session?.plan;
    const isRight = signed?.holds || (proven && proven.proof.right === proven.proof.rows);
    if (!plan || !isRight) return nothing;
    return sameValue(plan.meant, asMeant(plan).meant)
      ? html`<p class="quiet">This bench is kept as meant: Why says what differs from it.</p>`
      : html`<p class="acts"><button type="button" class="tool" @click=${() => this.session?.edit(keepAsMeant(plan))}>Keep as meant</button>
          <span class="quiet">Why then names what differs from this bench.</span></p>`;
  }

  private signing() {
    const { proven, signed } = this;
    if (signed?.holds)
      return html`<p class="signed">Signed${signed.proof.by ? ` by ${signed.proof.by}` : ''} on ${dateOf(signed.proof)}. It is saved in the plan, in files and in links, and printed on the build sheet while wiring, parts, bytes and table stay the same and the switches that set no input are where they were.</p>`;
    if (!proven || proven.proof.right !== proven.proof.rows) return nothing;
    return html`<form class="sign" @submit=${(e: SubmitEvent) => this.sign(e, proven)}>
      <label>Signed by <input name="by" maxlength="60" autocomplete="name" .value=${this.signed?.proof.by ?? ''} /></label>
      <button type="submit" class="act">Sign the proof for the build sheet</button>
    </form>`;
  }
}
