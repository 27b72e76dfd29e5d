/** The search for a repair beside a proof that failed: the edits each of which makes every row right, tried on copies of the bench. */
import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Plan } from '../../../shared/plan.ts';
import type { Change } from '../../../sim-core/index.ts';
import { SessionElement } from '../../state/session-element.ts';
import { JobClient } from '../../worker/job-client.ts';
import type { Repairs } from '../../worker/jobs.ts';

@customElement('repair-view')
export class RepairView extends SessionElement {
  protected override readonly hears = [] as const;
  /** the bench that was proven */
  @property({ attribute: false }) plan: Plan | undefined;
  /** how much of what can be tried has been tried, 0 to 1 */
  @state() private share = 0;
  @state() private busy = false;
  @state() private found: Repairs | undefined;
  @state() private refusal = '';
  private readonly jobs = new JobClient((part) => {
    this.share = part;
  });

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.jobs.close();
  }

  /** What was found belongs to the bench it was found for. */
  protected override willUpdate(changed: PropertyValues<this>) {
    const before = changed.get('plan');
    if (!before || before === this.plan) return;
    this.jobs.end();
    this.found = undefined;
    this.refusal = '';
  }

  private async search(plan: Plan) {
    this.share = 0;
    this.refusal = '';
    this.busy = true;
    const answer = await this.jobs.begin({ job: 'repair', plan });
    this.busy = false;
    if (!answer) return;
    if (answer.ok) this.found = answer.value;
    else this.refusal = answer.failure.says;
  }

  protected override render() {
    const { plan, found } = this;
    if (!plan) return nothing;
    if (this.busy)
      return html`<p role="status">Trying single edits on copies of the bench</p>
        <progress aria-label="Edits tried" max="1" value=${this.share}></progress>
        <p class="acts"><button type="button" class="tool" @click=${() => this.jobs.end()}>Stop the search</button></p>`;
    if (this.refusal) return html`<p role="alert">${this.refusal}</p>`;
    if (!found)
      return html`<p class="acts"><button type="button" class="tool" @click=${() => void this.search(plan)}>Find a repair</button>
        <span class="quiet">Looks for the one edit that makes every row right.</span></p>`;
    const { repairs, heading } = found;
    if (repairs.length === 0) return html`<p role="status">${heading}</p>`;
    return html`<section class="proof" aria-label="Repairs">
      <h3>${heading}</h3>
      ${repairs.map(({ says, change }) => html`<p>${says} <button type="button" class="plain" @click=${() => this.apply(change)}>Apply</button></p>`)}
    </section>`;
  }

  private apply(change: Change) {
    this.session?.edit(change);
  }
}
