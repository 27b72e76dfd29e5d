/** The page *Why*: one large sentence, the chain of causes behind it, and the edit that would change it. */
import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { brightnessText, type Change, plain, type Ref } from '../../sim-core/index.ts';
import { ledInk } from '../scene/faces/led-look.ts';
import { goneLeds, replacement } from '../state/damage-text.ts';
import { SessionElement } from '../state/session-element.ts';
import { go, hashOf, ledOfLink } from '../ui/route.ts';
import { pointEvent, viewSentence } from '../ui/sentence-view.ts';
import type { SaidWhy } from '../worker/protocol.ts';

/** Headlines with more letters than this are set smaller. */
const LONG = 80;
/** An answer comes within this after what it answers [ms]. */
const ANSWERED = 2000;

@customElement('why-page')
export class WhyPage extends SessionElement {
  protected override readonly hears = ['settled', 'model'] as const;
  /** what is asked about: 'LED3', 'W7' */
  @property() about = '';
  @state() private why: SaidWhy | undefined;

  private off: (() => void) | undefined;

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.off?.();
    this.off = undefined;
    this.asked = '';
    this.session?.why(undefined);
  }

  protected override willUpdate(changed: Map<PropertyKey, unknown>) {
    this.off ??= this.session?.on('why', (why) => {
      if (why.about === this.about) this.why = why;
    });
    if (changed.has('about')) {
      this.why = undefined;
      this.asked = '';
    }
    const today = ledOfLink(this.about, this.session?.model?.leds.map((l) => l.led) ?? []);
    if (today !== this.about) location.replace(hashOf({ page: 'why', about: today }));
    // a link may name a thing before its bench stands
    if (this.about && this.asked !== this.about && this.session?.model && this.session.readings) {
      this.asked = this.about;
      this.askedAt = performance.now();
      this.session.why(this.about);
      if (this.session.model.leds.some((l) => l.led === this.about))
        this.dispatchEvent(pointEvent({ ref: { kind: 'led', id: this.about }, keep: true }));
    }
  }
  private asked = '';

  protected override render() {
    const { why } = this;
    return html`${why ? this.answer(why) : this.invitation()} ${this.leds()} ${why ? nothing : this.notes()}`;
  }

  private invitation() {
    const { model } = this.session ?? {};
    if (model?.leds.length === 0)
      return html`<h2 class="headline">${model.specimens.some((s) => !s.supply) ? 'There is no LED on this bench yet.' : 'The bench is empty.'} ${this.toParts()}</h2>
        <p class="quiet">Pick a part, then a hole on the board. For a wire, drag from one hole to another, or click both.
          Once there is an LED, click it to ask why it is lit or dark.</p>
        <p class="quiet">Or say what the LEDs are to do on the page <a class="plain" href=${hashOf({ page: 'table' })}>Table</a>, and have the whole bench
          built on the page <a class="plain" href=${hashOf({ page: 'build' })}>Build</a>.</p>`;
    const off = this.session?.readings?.supplies.every((s) => !s.on);
    if (off)
      return html`<h2 class="headline">The supply is off. ${viewSentence(['Switch ', this.supplySwitch(), ' on.'])}</h2>
        <p class="quiet">Then set a switch and watch the LEDs. Click an LED to ask why it is lit or dark.</p>`;
    return html`<h2 class="headline">Click an LED to ask why it is lit, dim or dark.</h2>
      <p class="quiet">Lit, dim or dark: the answer points back to a part, a wire or a switch on the bench.</p>`;
  }

  private toParts() {
    return html`<button type="button" class="plain" @click=${() => this.dispatchEvent(new Event('to-parts', { bubbles: true }))}>Open Parts.</button>`;
  }

  /** What its maker says of the bench: what it does, and how to go on. */
  private notes() {
    const notes = this.session?.model?.plan.notes ?? [];
    if (notes.length === 0) return nothing;
    return html`<section class="about" aria-label="About this bench"><h3 class="section">About this bench</h3>${notes.map((n) => html`<p>${n}</p>`)}</section>`;
  }

  private supplySwitch() {
    const supply = this.session?.model?.specimens.find((s) => s.supply);
    return supply ? ({ text: 'it', ref: { kind: 'part', id: supply.part.id } } as const) : 'it';
  }

  private answer(why: SaidWhy) {
    return html`<h2 class="headline ${plain(why.headline).length > LONG ? 'long' : ''}" aria-live=${this.isAsked() ? 'polite' : 'off'}>${viewSentence(why.headline)}</h2>
      ${why.note ? html`<p class="quiet">${why.note}</p>` : nothing}
      ${isSaid(why) ? nothing : html`<ol class="chain">${why.steps.map((s) => html`<li><p>${viewSentence(s.says)}</p>${s.figures ? html`<p class="figures">${s.figures}</p>` : nothing}</li>`)}</ol>`}
      ${
        why.proof
          ? html`<section class="proof" aria-label=${why.proof.called}>
              <h3>${why.proof.called}</h3>
              <p>${viewSentence(why.proof.says)}</p>
              <button type="button" class="act" @click=${() => why.proof && this.change(why.proof.change)}>Apply</button>
            </section>`
          : why.looking
            ? html`<p class="quiet">Looking for a fix …</p>`
            : this.replace(why.about)
      }
      ${why.instead ? html`<section class="proof" aria-label="Or instead"><h3>Or instead</h3>${why.instead.map((says) => html`<p>${viewSentence(says)}</p>`)}</section>` : nothing}
      ${this.takeBack()}`;
  }

  /** What changes by itself is not spoken, only what a person has asked or caused. */
  private isAsked(): boolean {
    return performance.now() - Math.max(this.askedAt, this.session?.touchedAt ?? 0) < ANSWERED;
  }
  private askedAt = 0;

  /** A damaged LED that a new one alone would not make shine can be replaced all the same. */
  private replace(about: string) {
    const { session } = this;
    const change = session?.model && replacement(session.model.plan, about.split('.')[0] ?? about);
    if (!change) return nothing;
    return html`<p class="take-back">Remove the cause first, or a new one may be damaged too.
      <button type="button" class="plain" @click=${() => this.change(change)}>Replace it</button></p>`;
  }

  private change(change: Change) {
    this.changedAt = (this.session?.history.at ?? 0) + 1;
    this.session?.edit(change);
  }
  /** how many changes stand when the one that was made here is the last */
  private changedAt = 0;

  private takeBack() {
    const { session } = this;
    if (this.changedAt === 0 || session?.history.at !== this.changedAt) return nothing;
    return html`<p class="take-back">Fix applied.
      <button type="button" class="plain" @click=${() => session.undo()}>Undo it</button></p>`;
  }

  private leds() {
    const { model, readings } = this.session ?? {};
    if (!model || !readings || model.leds.length === 0) return nothing;
    const gone = goneLeds(model.plan, model.specimens);
    const now = new Map(readings.leds.map((l) => [l.led, l]));
    return html`<section class="leds" aria-label="LEDs"><h3 class="section">LEDs</h3>
      <ul class="led-list">
        ${model.leds.map((l) => {
          const reading = now.get(l.led);
          const brightness = reading?.brightness ?? 'dark';
          const damaged = gone.has(l.led);
          return html`<li>
            <button type="button" class="led-ask" data-brightness=${damaged ? 'damaged' : brightness} aria-pressed=${l.led === this.about} @click=${() => this.ask(l.led)}>
              <span class="bulb" data-brightness=${damaged ? 'damaged' : brightness} style="--tint:${ledInk(l.colour).lit}"></span>${l.name}
              <span class="figures">${damaged ? 'damaged' : brightnessText(brightness)}</span>
            </button>
          </li>`;
        })}
      </ul></section>`;
  }

  /** Asked about again, an LED is at least shown where it is. */
  private ask(led: string) {
    if (led === this.about) this.dispatchEvent(pointEvent({ ref: { kind: 'led', id: led }, keep: true }));
    go({ page: 'why', about: led });
  }

  /** What the page speaks of is picked out on the bench; the LED asked about is ringed. */
  private speak(why: SaidWhy | undefined) {
    const sentences = why
      ? [why.headline, ...why.steps.map((s) => s.says), ...(why.proof ? [why.proof.says] : []), ...(why.instead ?? [])]
      : [];
    const refs = sentences.flat().flatMap((word) => (typeof word === 'string' ? [] : [word.ref]));
    this.dispatchEvent(new CustomEvent<readonly Ref[]>('speak', { detail: refs, bubbles: true, composed: true }));
  }

  protected override updated(changed: Map<PropertyKey, unknown>) {
    if (changed.has('why')) this.speak(this.why);
  }
}

/** One cause without figures is told by the headline already. */
function isSaid({ headline, steps }: SaidWhy): boolean {
  const [only] = steps;
  return (
    steps.length === 1 &&
    only !== undefined &&
    !only.figures &&
    plain(headline).toLowerCase().includes(plain(only.says).toLowerCase().replace(/\.$/, ''))
  );
}
