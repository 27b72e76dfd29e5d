/** A check while building along: what to measure, the answer as a number or in a word, and, where it fails, the usual causes with what each would show. */
import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Plan } from '../../shared/plan.ts';
import {
  type CheckLine,
  type CheckReading,
  parseQuantity,
  passes,
  type StageCheck,
  sayLights,
  sayMeasured,
  siFormat,
  type UsualCause,
} from '../../sim-core/index.ts';
import { LightElement } from '../ui/light-element.ts';
import { JobClient } from '../worker/job-client.ts';

const UNITS = { ohms: 'Ω', farads: 'F', volts: 'V', amps: 'A' } as const;

/** Told when a check was answered; a search for the mistake on the real bench may begin with one that failed. */
export interface CheckAnswered {
  readonly check: StageCheck;
  readonly good: boolean;
  /** absent: only said to be out of its band */
  readonly read?: CheckReading;
}

@customElement('along-check')
export class AlongCheck extends LightElement {
  @property({ attribute: false }) plan: Plan | undefined;
  @property({ attribute: false }) line: CheckLine | undefined;
  /** it failed when it was answered last */
  @property({ type: Boolean }) wrong = false;
  @state() private which = 0;
  @state() private says = '';
  @state() private causes: readonly UsualCause[] | undefined;
  @state() private searching = false;
  private readonly jobs = new JobClient();

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.jobs.close();
  }

  /** Another line begins with nothing said; one that failed before has its causes looked for again. */
  protected override willUpdate(changed: PropertyValues) {
    if (!changed.has('line')) return;
    this.jobs.end();
    this.which = 0;
    this.says = '';
    this.causes = undefined;
    this.searching = false;
    if (this.wrong && this.check) void this.search(this.check, undefined);
  }

  private get check(): StageCheck | undefined {
    return this.line?.checks[this.which];
  }

  private answer(good: boolean, read?: CheckReading) {
    const { check } = this;
    if (!check) return;
    this.dispatchEvent(
      new CustomEvent<CheckAnswered>('check-answered', { bubbles: true, detail: { check, good, ...(read === undefined ? {} : { read }) } }),
    );
    if (!good) void this.search(check, read);
  }

  private async search(check: StageCheck, read: CheckReading | undefined) {
    const { plan } = this;
    if (!plan) return;
    this.searching = true;
    this.causes = undefined;
    const found = await this.jobs.begin({ job: 'causes', plan, check, ...(read === undefined ? {} : { read }) });
    if (!found) return;
    this.searching = false;
    if (found.ok) this.causes = found.value;
    else this.says = found.failure.says;
    await this.updateComplete;
    // on a telephone they stand below what was typed
    this.querySelector('.along-causes')?.scrollIntoView({ block: 'start' });
  }

  private readonly typed = (e: Event) => {
    e.preventDefault();
    const { check } = this;
    const text = this.querySelector('input[name="reading"]') as HTMLInputElement | null;
    if (!check || check.by === 'eye' || !text) return;
    const read = readingOf(text.value, UNITS[check.by]);
    if (typeof read !== 'number') {
      this.says = read.says;
      return;
    }
    const good = passes(check, read);
    this.says = `${textOf(read, check.by)} is ${good ? 'in' : 'outside'} the band.`;
    this.answer(good, read);
  };

  protected override render() {
    const { line, check } = this;
    if (!line || !check) return nothing;
    const many = line.checks.length > 1;
    return html`<p class="along-good"><span>Good if</span> <b>${line.good}</b></p>
      ${line.drawnWrong ? html`<p class="along-says"><strong>Not as drawn here. Fix the plan first.</strong></p>` : nothing}
      <p class="acts">
        <button type="button" class="act" @click=${() => this.answer(true)}>${many ? 'All are good' : line.by === 'eye' ? 'It is so' : 'In band'}</button>
        <button type="button" class="plain" @click=${() => this.answer(false)}>${many ? 'One is not' : line.by === 'eye' ? 'It is not so' : 'Out of band'}</button>
      </p>
      ${many && this.wrong ? this.choice(line) : nothing}
      ${
        line.by === 'eye'
          ? nothing
          : html`<form class="along-typed" @submit=${this.typed}>
            <label>Reading <input name="reading" inputmode="text" autocomplete="off" size="9" placeholder="or type it" /></label>
            <button type="submit">Compare</button></form>`
      }
      <p class="along-says" role="status">${this.says}</p>
      ${this.wrong ? this.failed() : nothing}`;
  }

  private choice({ checks }: CheckLine) {
    return html`<label class="along-which">Which one
      <select @change=${(e: Event) => {
        this.which = Number((e.target as HTMLSelectElement).value);
        this.answer(false);
      }}>${checks.map((c, i) => html`<option value=${i} ?selected=${i === this.which}>${placesText(c)}: ${sayMeasured(c.about)}</option>`)}</select></label>`;
  }

  private failed() {
    const { causes } = this;
    return html`<section class="along-causes" aria-label="Usual causes">
      <h2>Usual causes</h2>
      <p>Switch the supply off first.</p>
      ${this.searching ? html`<p role="status">Trying the usual mistakes on the simulated bench …</p>` : nothing}
      ${causes?.length === 0 ? html`<p>No single usual mistake of this stage shows that. Compare each line of the stage with the bench.</p>` : nothing}
      ${causes && causes.length > 0 ? html`<ol>${causes.map((c) => html`<li>${c.says} <span class="quiet">${this.shown(c)}</span></li>`)}</ol>` : nothing}
      <p class="acts">${leave('why', 'Ask why on the simulated bench')} ${leave('findings', 'See its findings')}</p>
    </section>`;
  }

  /** What the simulated bench shows with the mistake. */
  private shown({ shows, fits }: UsualCause): string {
    const { check } = this;
    const what = typeof shows !== 'number' ? sayLights(shows) : check && check.by !== 'eye' ? textOf(shows, check.by) : '';
    return `With this mistake: ${what}${fits ? ', as you read' : ''}.`;
  }
}

/** To a page of the panel, beside the simulated bench. */
const leave = (page: string, says: string) =>
  html`<button type="button" class="plain" @click=${() => {
    location.hash = page;
  }}>${says}</button>`;

const textOf = (read: number, by: keyof typeof UNITS): string => (read === Number.POSITIVE_INFINITY ? 'open' : siFormat(read, UNITS[by]));

/** Red probe and black, or where the wire goes. */
const placesText = (c: StageCheck): string => (c.by === 'eye' ? (c.wire?.to ?? '') : `${c.red} to ${c.black}`);

/** "9.9k", "4,7 V", "open", "OL". */
function readingOf(text: string, unit: string): number | { readonly says: string } {
  if (/^\s*(open|ol|o\.?l\.?|∞|overload)\s*$/i.test(text)) return Number.POSITIVE_INFINITY;
  const read = parseQuantity(text, unit);
  return read.ok ? read.value : read.failure;
}
