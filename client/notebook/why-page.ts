/** The page *Why*: one large sentence, the chain of causes behind it, and the edit that would change it. */
import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type Change, plain, type Ref } from '../core.ts';
import { goneLamps, replacement } from '../damage.ts';
import { Listen } from '../listen.ts';
import { glowWord, lampInk } from '../scene/faces/lamp-look.ts';
import type { Session } from '../session.ts';
import type { SaidWhy } from '../worker/protocol.ts';
import { go, hashOf } from './place.ts';
import { pointEvent, say } from './say.ts';

/** Headlines with more letters than this are set smaller. */
const LONG = 80;
/** An answer comes within this after what it answers [ms]. */
const ANSWERED = 2000;

@customElement('why-page')
export class WhyPage extends LitElement {
  @property({ attribute: false }) session: Session | undefined;
  /** the lamp asked about */
  @property() lamp = '';
  @state() private why: SaidWhy | undefined;

  constructor() {
    super();
    new Listen(this, () => this.session, ['settled', 'standing']);
  }

  protected override createRenderRoot() {
    return this;
  }

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
      if (why.lamp === this.lamp) this.why = why;
    });
    if (changed.has('lamp')) {
      this.why = undefined;
      this.asked = '';
    }
    // a link may name a lamp before its bench stands
    if (this.lamp && this.asked !== this.lamp && this.session?.standing?.lamps.some((l) => l.lamp === this.lamp) && this.session.readings) {
      this.asked = this.lamp;
      this.askedAt = performance.now();
      this.session.why(this.lamp);
      this.dispatchEvent(pointEvent({ ref: { kind: 'lamp', id: this.lamp }, keep: true }));
    }
  }
  private asked = '';

  protected override render() {
    const { session, why } = this;
    const known = session?.standing?.lamps.some((l) => l.lamp === this.lamp);
    return html`${why && known ? this.answer(why) : this.invitation(Boolean(this.lamp) && !known)} ${this.lamps()}
      ${why && known ? nothing : this.about()}`;
  }

  private invitation(unknown: boolean) {
    const { standing } = this.session ?? {};
    if (standing?.lamps.length === 0 && !unknown)
      return html`<h2 class="headline">${standing.specimens.some((s) => !s.supply) ? 'No lamp is on this bench yet.' : 'The bench is bare.'} ${this.toShelf()}</h2>
        <p class="quiet">Choose a part there, then its place on the board. A lead goes from one hole to another: drag it, or touch both ends.
          Once a lamp is there, touch it to ask why it is as it is.</p>
        <p class="quiet">Or say what the lamps shall do, on the page <a class="plain" href=${hashOf({ page: 'table' })}>Table</a>, and have the whole bench
          made of it, on the page <a class="plain" href=${hashOf({ page: 'build' })}>Build</a>.</p>`;
    const off = this.session?.readings?.supplies.every((s) => !s.on);
    if (off && !unknown)
      return html`<h2 class="headline">The supply is off. ${say([this.supplySwitch(), ' is on the bench.'])}</h2>
        <p class="quiet">Then set a switch and see the lamps answer, and touch a lamp to ask why it is as it is.</p>`;
    return html`<h2 class="headline">${unknown ? `There is no lamp ${this.lamp} on this bench.` : 'Touch a lamp to ask why it is as it is.'}</h2>
      <p class="quiet">Lit, dim or dark: the answer goes back to something that a hand can touch.</p>`;
  }

  private toShelf() {
    return html`<button type="button" class="plain" @click=${() => this.dispatchEvent(new Event('to-shelf', { bubbles: true }))}>Parts are on the shelf.</button>`;
  }

  /** What its maker says of the bench: what it does, and how to go on. */
  private about() {
    const notes = this.session?.standing?.plan.notes ?? [];
    if (notes.length === 0) return nothing;
    return html`<section class="about" aria-label="About this bench"><h3 class="section">About this bench</h3>${notes.map((n) => html`<p>${n}</p>`)}</section>`;
  }

  private supplySwitch() {
    const supply = this.session?.standing?.specimens.find((s) => s.supply);
    return supply ? ({ text: 'Its switch', ref: { kind: 'part', id: supply.part.id } } as const) : 'Its switch';
  }

  private answer(why: SaidWhy) {
    return html`<h2 class="headline ${plain(why.headline).length > LONG ? 'long' : ''}" aria-live=${this.isAsked() ? 'polite' : 'off'}>${say(why.headline)}</h2>
      ${why.note ? html`<p class="quiet">${why.note}</p>` : nothing}
      ${isSaid(why) ? nothing : html`<ol class="chain">${why.steps.map((s) => html`<li><p>${say(s.says)}</p>${s.figures ? html`<p class="figures">${s.figures}</p>` : nothing}</li>`)}</ol>`}
      ${
        why.proof
          ? html`<section class="proof" aria-label="Proof">
              <h3>Proof</h3>
              <p>${say(why.proof.says)}</p>
              <button type="button" class="act" @click=${() => why.proof && this.change(why.proof.change)}>Make this change</button>
            </section>`
          : this.replace(why.lamp)
      }
      ${this.takeBack()}`;
  }

  /** What changes by itself is not spoken, only what a person has asked or caused. */
  private isAsked(): boolean {
    return performance.now() - Math.max(this.askedAt, this.session?.touchedAt ?? 0) < ANSWERED;
  }
  private askedAt = 0;

  /** A damaged lamp that a new one alone would not make shine can be replaced all the same. */
  private replace(lamp: string) {
    const { session } = this;
    const change = session?.standing && replacement(session.standing.plan, lamp.split('.')[0] ?? lamp);
    if (!change) return nothing;
    return html`<p class="take-back">Take away the cause first, or a new one may go the same way.
      <button type="button" class="plain" @click=${() => this.change(change)}>Put a new one in</button></p>`;
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
    return html`<p class="take-back">The bench has been changed.
      <button type="button" class="plain" @click=${() => session.undo()}>Take the change back</button></p>`;
  }

  private lamps() {
    const { standing, readings } = this.session ?? {};
    if (!standing || !readings || standing.lamps.length === 0) return nothing;
    const gone = goneLamps(standing.plan, standing.specimens);
    const now = new Map(readings.lamps.map((l) => [l.lamp, l]));
    return html`<section class="lamps" aria-label="Lamps"><h3 class="section">Lamps</h3>
      <ul class="lamp-list">
        ${standing.lamps.map((l) => {
          const reading = now.get(l.lamp);
          const glow = reading?.glow ?? 'dark';
          const dead = gone.has(l.lamp);
          return html`<li>
            <button type="button" class="lamp-ask" data-glow=${dead ? 'damaged' : glow} aria-pressed=${l.lamp === this.lamp} @click=${() => this.ask(l.lamp)}>
              <span class="bulb" data-glow=${dead ? 'damaged' : glow} style="--tint:${lampInk(l.colour).lit}"></span>${l.name}
              <span class="figures">${dead ? 'damaged' : glowWord(glow)}</span>
            </button>
          </li>`;
        })}
      </ul></section>`;
  }

  /** Asked about again, a lamp is at least shown where it is. */
  private ask(lamp: string) {
    if (lamp === this.lamp) this.dispatchEvent(pointEvent({ ref: { kind: 'lamp', id: lamp }, keep: true }));
    go({ page: 'why', about: lamp });
  }

  /** What the page speaks of is picked out on the bench; the lamp asked about is ringed. */
  private speak(why: SaidWhy | undefined) {
    const sentences = why ? [why.headline, ...why.steps.map((s) => s.says), ...(why.proof ? [why.proof.says] : [])] : [];
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
