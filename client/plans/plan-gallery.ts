/** The examples: every demonstration as a picture with what it teaches, the riddles among them, a bench from a table, and an empty one. */
import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Plan } from '../../shared/plan.ts';
import { blankTable, emptyBench } from '../../sim-core/index.ts';
import { drawSmall } from '../scene/small-drawing.ts';
import { LightElement } from '../ui/light-element.ts';
import './plan-gallery.css';
import { type DemoTitle, demoText } from './plan-files.ts';

/** What is chosen here: a demonstration, or a plan made here and the page of the panel to turn to. */
export type GalleryChoice = { readonly demo: string } | { readonly made: string; readonly next: string } | { readonly empty: true };

/** A picture is drawn when it is about to come into sight, so far before [px]. */
const AHEAD = '200px';

@customElement('plan-gallery')
export class PlanGallery extends LightElement {
  @property({ attribute: false }) demos: readonly DemoTitle[] = [];
  @state() private fault = '';
  @query('dialog') private readonly dialog!: HTMLDialogElement;
  private readonly sight = new IntersectionObserver(
    (seen) => {
      for (const s of seen) if (s.isIntersecting) void this.draw(s.target);
    },
    { rootMargin: AHEAD },
  );

  async show() {
    await this.updateComplete;
    if (!this.dialog.open) this.dialog.showModal();
  }

  protected override updated() {
    for (const picture of this.querySelectorAll('.example-picture:empty')) this.sight.observe(picture);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.sight.disconnect();
  }

  /** One bench after the other: the page stays free between them. */
  private async draw(picture: Element) {
    this.sight.unobserve(picture);
    if (!(picture instanceof HTMLElement)) return;
    const text = await demoText(picture.dataset.demo ?? '');
    // without a network and not kept: the card still says what it is
    if (text.ok) picture.replaceChildren(drawSmall(JSON.parse(text.value) as Plan));
  }

  private choose(choice: GalleryChoice) {
    this.dialog.close();
    this.dispatchEvent(new CustomEvent<GalleryChoice>('example', { detail: choice, bubbles: true }));
  }

  private fromTable(e: SubmitEvent) {
    e.preventDefault();
    const form = new FormData(e.target as HTMLFormElement);
    const wanted = blankTable(Number(form.get('inputs')), Number(form.get('outputs')));
    this.fault = wanted.ok ? '' : wanted.failure.says;
    if (wanted.ok)
      this.choose({ made: JSON.stringify({ ...emptyBench, title: 'Bench from a table', wanted: wanted.value }), next: '#table' });
  }

  protected override render() {
    const riddles = this.demos.filter((d) => !d.teaches);
    return html`<dialog class="plan-gallery" aria-labelledby="plan-gallery-head" @click=${(e: Event) => e.target === this.dialog && this.dialog.close()}>
      <div class="plan-gallery-page">
        <header>
          <h2 id="plan-gallery-head">Examples</h2>
          <button type="button" class="plain" @click=${() => this.dialog.close()}>Close</button>
        </header>
        <p class="quiet">What you have changed on this bench is kept. Find it under the title, at Recent benches.</p>
        <ul class="examples">
          ${this.demos.flatMap((d) => (d.teaches ? this.card(d, d.teaches) : []))}
          ${this.own()}
        </ul>
        ${
          riddles.length > 0
            ? html`<h3>Riddles</h3>
              <p class="quiet">Each bench has one mistake. Find it: switch on, look, measure, ask why.</p>
              <ul class="examples">${riddles.map((d) => this.card(d, ''))}</ul>`
            : nothing
        }
      </div>
    </dialog>`;
  }

  /** Benches to begin with. */
  private own() {
    return html`<li class="example own">
            <form @submit=${this.fromTable}>
              <strong>From a table</strong>
              <p>Say what the outputs must be; the page Build makes the bench.</p>
              <p class="own-sizes"><label><input name="inputs" type="number" min="1" max="16" value="4" required /> inputs</label>
                <label><input name="outputs" type="number" min="1" max="16" value="2" required /> outputs</label>
                <button type="submit" class="act">Start a table</button></p>
              ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
            </form>
          </li>
          <li class="example own">
            <strong>Empty bench</strong>
            <p>One board and a supply. Take everything else from Parts (key B).</p>
            <p><button type="button" class="act" @click=${() => this.choose({ empty: true })}>Start empty</button></p>
          </li>`;
  }

  private card(d: DemoTitle, says: string) {
    return html`<li class="example"><button type="button" @click=${() => this.choose({ demo: d.id })}>
      <span class="example-picture" data-demo=${d.id}></span>
      <strong>${d.title}</strong>
      ${says ? html`<span class="example-says">${says}</span>` : nothing}
    </button></li>`;
  }
}
