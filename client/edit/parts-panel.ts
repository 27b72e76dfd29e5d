/** Parts: all kinds by what they do, found by typing, taken into the hand by a click or a drag, or set down at a typed tie point. */
import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { sameValue } from '../../shared/same-value.ts';
import { LightElement } from '../ui/light-element.ts';
import type { Builder } from './builder.ts';
import { insertText } from './insert-text.ts';
import { partPicture } from './part-picture.ts';
import { type PartGroup, type PartOffer, partGroups, partOfferText } from './part-search.ts';

/** A command by name that a search may mean; not whole: it is gone on with in the command line. */
interface NamedCommand {
  readonly line: string;
  readonly means: string;
  readonly whole: boolean;
}

/** Boards are no parts, and are added by a command each. */
const BOARDS: ReadonlyArray<NamedCommand & { readonly title: string }> = [63, 30].map((rows) => ({
  line: `add board ${rows}`,
  title: `Breadboard, ${rows} rows`,
  means: 'below the others',
  whole: true,
}));
const boardsFor = (search: string) => {
  const words = search.toLowerCase().split(/\s+/);
  return BOARDS.filter((b) => words.every((w) => `${b.title} protoboard tie points`.toLowerCase().includes(w)));
};

/** A press that moves so far is a drag onto the bench [px]. */
const DRAG = 6;

@customElement('parts-panel')
export class PartsPanel extends LightElement {
  @property({ attribute: false }) builder: Builder | undefined;
  /** commands that a search names: who looks for a jumper or a scope may look here first */
  @property({ attribute: false }) commandsNamed: (search: string) => readonly NamedCommand[] = () => [];
  @state() private search = '';
  @state() private refusal = '';
  private readonly sight = new IntersectionObserver(
    (seen) => {
      for (const { isIntersecting, target } of seen) if (isIntersecting) this.draw(target);
    },
    { rootMargin: '100px' },
  );
  /** what each place for a picture is of */
  private readonly pictured = new WeakMap<Element, PartOffer>();
  private off: (() => void) | undefined;

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.off?.();
    this.off = undefined;
    this.sight.disconnect();
  }
  protected override willUpdate() {
    this.off ??= this.builder?.on(() => this.requestUpdate());
  }

  /** Pictures are drawn as they come into sight. */
  protected override updated() {
    const offers = partGroups(this.search).flatMap((g) => g.offers);
    for (const [i, place] of [...this.querySelectorAll('.part-picture')].entries()) {
      const offer = offers[i];
      const before = this.pictured.get(place);
      if (!offer || (before && sameValue(before.placing, offer.placing))) continue;
      this.pictured.set(place, offer);
      place.replaceChildren();
      this.sight.unobserve(place);
      this.sight.observe(place);
    }
  }

  private draw(place: Element) {
    const offer = this.pictured.get(place);
    const picture = offer && place.childElementCount === 0 ? partPicture(offer.placing) : undefined;
    if (picture) place.replaceChildren(picture);
  }

  focusSearch() {
    this.querySelector('input')?.focus();
  }

  /** Enter in the search takes the first that is found; with a tie point typed, sets it down there. */
  private submit(e: SubmitEvent, sections: readonly PartGroup[]) {
    e.preventDefault();
    const at = String(new FormData(e.target as HTMLFormElement).get('at') ?? '').trim();
    const offer = sections[0]?.offers[0];
    const toPlace = this.builder?.toPlace;
    if (at === '' && offer) this.take(offer);
    else if (toPlace) this.setDown(toPlace, at);
    else if (offer) this.setDown(offer.placing, at);
    else this.run(boardsFor(this.search)[0] ?? this.commandsNamed(this.search)[0]);
  }

  private run(command: NamedCommand | undefined) {
    if (!command) return;
    const { line, means, whole } = command;
    this.dispatchEvent(new CustomEvent('command-taken', { detail: { says: means, line, ...(whole ? {} : { goesOn: true }) } }));
  }

  private setDown(placing: PartOffer['placing'], at: string) {
    const done = this.builder?.place(at === '' ? placing : { ...placing, at });
    this.refusal = done && !done.ok ? done.failure.says : '';
    if (!done?.ok) return;
    this.builder?.hold(undefined);
    this.say(insertText(done.value));
  }

  private say(news: string) {
    this.dispatchEvent(new CustomEvent<string>('news', { detail: news, bubbles: true }));
  }

  /** Ready to place, or no longer. */
  private take(offer: PartOffer) {
    const { builder } = this;
    if (!builder) return;
    const again = sameValue(builder.toPlace, offer.placing);
    builder.hold(again ? undefined : offer.placing);
    this.refusal = '';
    if (!again) this.dispatchEvent(new CustomEvent('taken', { bubbles: true }));
    this.say(again ? '' : `${partOfferText(offer)} ready. Click a hole, or type one.`);
  }

  private takeWire() {
    const { builder } = this;
    if (!builder) return;
    if (builder.laying) builder.cancel();
    else builder.layWires();
    this.dispatchEvent(new CustomEvent('wire-taken', { bubbles: true }));
  }

  /** A press on a part that moves off is a drag onto the bench. */
  private press(e: PointerEvent, offer: PartOffer) {
    if (e.button !== 0 || e.pointerType === 'touch') return;
    const [x, y] = [e.clientX, e.clientY];
    const move = (m: PointerEvent) => {
      if (Math.hypot(m.clientX - x, m.clientY - y) < DRAG) return;
      end();
      this.builder?.hold(offer.placing);
      this.dispatchEvent(new CustomEvent('carry', { bubbles: true }));
    };
    const end = () => {
      removeEventListener('pointermove', move);
      removeEventListener('pointerup', end);
      removeEventListener('blur', end);
    };
    addEventListener('pointermove', move);
    addEventListener('pointerup', end);
    addEventListener('blur', end);
  }

  protected override render() {
    const { builder } = this;
    const sections = partGroups(this.search);
    const boards = boardsFor(this.search);
    const commands = boards.length > 0 ? [] : this.commandsNamed(this.search);
    return html`<form class="parts-find" @submit=${(e: SubmitEvent) => this.submit(e, sections)}>
        <label><span class="visually-hidden">Find a part</span>
          <input type="search" name="find" autocomplete="off" spellcheck="false" placeholder="4k7 resistor, 20-pin"
            @input=${(e: InputEvent) => {
              this.search = (e.target as HTMLInputElement).value;
            }} /></label>
        <label class="parts-at">at <input name="at" size="6" autocomplete="off" autocapitalize="off" spellcheck="false" placeholder="e14" /></label>
        <button type="submit" class="act">Place</button>
        <button type="button" class="parts-away" aria-label="Close Parts" @click=${() => this.dispatchEvent(new CustomEvent('away'))}>×</button>
      </form>
      <p class="parts-says" aria-live="polite">${this.refusal || (builder?.toPlace ? 'Click a hole on the bench, or type one.' : html`<span class="quiet">Pick a part, then a hole.</span>`)}</p>
      <label class="parts-several"><input type="checkbox" .checked=${Boolean(builder?.several)} @change=${(e: Event) => builder?.keepSeveral((e.target as HTMLInputElement).checked)} /> several of one part in a row</label>
      <div class="parts-list" tabindex="-1">
        ${sections.map(
          ({ head, offers }) => html`<section aria-label=${head}><h3>${head}</h3><ul>
            ${offers.map(
              (w) => html`<li><button type="button" class="part-offer" aria-pressed=${sameValue(builder?.toPlace, w.placing)}
                @click=${() => this.take(w)}
                @pointerdown=${(e: PointerEvent) => this.press(e, w)}
              ><span class="part-picture"></span><span class="part-words"><span>${w.title}</span> <span class="figures">${w.note}</span></span></button></li>`,
            )}</ul></section>`,
        )}
        ${
          boards.length > 0
            ? this.commandList(
                'Boards',
                boards.map((b) => ({ ...b, shown: b.title })),
              )
            : nothing
        }
        ${
          commands.length > 0
            ? this.commandList(
                'Commands',
                commands.map((c) => ({ ...c, shown: c.line })),
              )
            : nothing
        }
        ${sections.length + boards.length + commands.length === 0 ? html`<p class="quiet">No part and no command matches. Try what it does, a value, or a pin count.</p>` : nothing}
      </div>
      <div class="parts-wire"><button type="button" class="act" aria-pressed=${Boolean(builder?.laying)} @click=${() => this.takeWire()}>Wire</button>
        <span class="quiet">Or drag from hole to hole. Its colour follows its role; change it on its card.</span></div>`;
  }

  private commandList(head: string, commands: ReadonlyArray<NamedCommand & { readonly shown: string }>) {
    return html`<section aria-label=${head}><h3>${head}</h3><ul>${commands.map(
      (c) =>
        html`<li><button type="button" class="part-offer part-command" @click=${() => this.run(c)}><span>${c.shown}</span> <span class="quiet">${c.means}</span></button></li>`,
    )}</ul></section>`;
  }
}
