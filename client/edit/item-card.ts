/** The card beside what is chosen: what it is, its values to edit in place, and what can be done with it. */
import { html, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { PlanBoard, PlanPart, PlanWire } from '../../shared/plan.ts';
import { type Outcome, parseQuantity, partKind } from '../../sim-core/index.ts';
import type { Box } from '../scene/geometry.ts';
import { laidAt, placeBeside } from '../scene/popover-placement.ts';
import { wireInk } from '../scene/wire-drawing.ts';
import { icon } from '../theme/icon.ts';
import '../state/band-view.ts';
import { LightElement } from '../ui/light-element.ts';
import { type Builder, WIRE_COLOURS } from './builder.ts';
import { paramSays } from './part-search.ts';

@customElement('item-card')
export class ItemCard extends LightElement {
  @property({ attribute: false }) builder: Builder | undefined;
  /** where the chosen things and the whole bench are on the surface [px] */
  @property({ attribute: false }) whereabouts: (() => { readonly thing: Box; readonly bench: Box } | undefined) | undefined;
  @state() private refusal = '';
  @state() private repeating = false;
  /** figures that together are refused so far: on a sheet, one alone may contradict those that are still to be changed */
  @state() private draft: Readonly<Record<string, number | string>> = {};
  private offs: Array<() => void> = [];
  private of = '';

  override disconnectedCallback() {
    super.disconnectedCallback();
    for (const off of this.offs) off();
    this.offs = [];
  }
  protected override willUpdate() {
    const { builder } = this;
    if (builder && this.offs.length === 0)
      this.offs = [builder.on(() => this.requestUpdate()), builder.session.on('model', () => this.requestUpdate())];
    const of = builder?.chosen.join() ?? '';
    if (of !== this.of) [this.refusal, this.repeating, this.of, this.draft] = ['', false, of, {}];
  }
  protected override updated() {
    this.settle();
  }

  /** Beside the thing, where it hides least of the bench; a narrow window lays it along the bottom by its style sheet. */
  settle() {
    const card = this.firstElementChild;
    if (!(card instanceof HTMLElement)) return;
    const at = this.whereabouts?.();
    card.hidden = at === undefined;
    const room = at && this.parentElement?.getBoundingClientRect();
    if (!at || !room) return;
    card.style.setProperty('--at', laidAt(placeBeside({ width: card.offsetWidth, height: card.offsetHeight }, at, room)));
  }

  /** To the first value of what is selected, for it to be typed over; to its name where it has no value. */
  async editValue() {
    await this.updateComplete;
    const [name, value] = this.querySelectorAll<HTMLInputElement>('.card-field :is(input, select)');
    const field = value?.closest('.card-field')?.matches(':has(~ .card-field), :last-child') ? value : name;
    field?.focus();
    field?.select?.();
  }

  private try(done: Outcome<unknown> | undefined) {
    this.refusal = done && !done.ok ? done.failure.says : '';
  }

  private field(name: string, value: string, take: (text: string) => Outcome<unknown> | undefined, size = 8): TemplateResult {
    const commit = (e: Event) => {
      const field = e.target as HTMLInputElement;
      if (field.value.trim() === value) return;
      const done = take(field.value);
      this.try(done);
      field.setAttribute('aria-invalid', String(done?.ok === false));
    };
    return html`<label class="card-field"><span>${name}</span>
      <input .value=${value} size=${size} autocomplete="off" autocapitalize="off" spellcheck="false" @change=${commit}
        @keydown=${(e: KeyboardEvent) => {
          e.stopPropagation();
          if (e.key === 'Escape')
            (e.target as HTMLElement).closest('bench-scene, .bench-room')?.querySelector<SVGElement>('svg.bench')?.focus();
        }} /></label>`;
  }

  /** Takes a figure over; of a part whose figures must agree, together with those that were refused before. */
  private take(part: PlanPart, name: string, value: number | string): Outcome<unknown> | undefined {
    const given = { ...(partKind(part.kind)?.contradiction ? this.draft : {}), [name]: value };
    const done = this.builder?.params(part.id, given);
    this.draft = done && !done.ok ? given : {};
    return done;
  }

  private partRows(part: PlanPart) {
    const { builder } = this;
    const kind = partKind(part.kind);
    if (!builder || !kind) return nothing;
    const rows = kind.params.map((p) => {
      const now = (kind.contradiction && this.draft[p.name]) || (part.params?.[p.name] ?? p.fallback);
      if (p.type === 'choice')
        return html`<label class="card-field"><span>${p.name}</span><select @change=${(e: Event) => this.try(this.take(part, p.name, (e.target as HTMLSelectElement).value))}>
          ${p.choices.map((c) => html`<option ?selected=${c === now}>${c}</option>`)}</select></label>`;
      if (p.type === 'text') return this.field(p.name, String(now), (text) => this.take(part, p.name, text), 24);
      return this.field(p.called ?? p.name, paramSays(Number(now), p.unit).trim(), (text) => {
        const read = parseQuantity(text, p.unit || undefined);
        return read.ok ? this.take(part, p.name, read.value) : read;
      });
    });
    const turns = part.at !== undefined;
    return html`<div class="card-fields">${this.field('name', part.label ?? '', (text) => builder.label(part.id, text), 12)}${rows}
      ${(['at', 'to'] as const).map((leg) => (part[leg] === undefined ? nothing : this.field(leg, part[leg] ?? '', (text) => builder.reLeg(part.id, leg, text))))}</div>
      <div class="card-acts">
        ${turns ? this.rotations() : nothing}
        ${part.to !== undefined ? this.act('Flip', '~', () => builder.flip()) : nothing}
        ${this.acts()}
        ${this.looks(part.id)}
      </div>
      ${this.band(part.id)}`;
  }

  /** What else can be seen of it: a chip from inside, an LED's reason. */
  private looks(id: string) {
    const s = this.builder?.session.model?.specimen.get(id);
    const [led, another] = s?.leds ?? [];
    if (s?.isChip)
      return html`<button type="button" @click=${() => this.dispatchEvent(new CustomEvent('close-up', { detail: id }))}>Inside view${s.word ? ' and bytes' : ''}</button>`;
    if (led && !another) return this.why(led.led);
    return nothing;
  }

  private why(about: string) {
    return html`<button type="button" @click=${() => this.dispatchEvent(new CustomEvent('ask-why', { detail: about }))}>Why?</button>`;
  }

  /** Of an LED, a segment or a supply. */
  private band(id: string) {
    const { session } = this.builder ?? {};
    const s = session?.model?.specimen.get(id);
    if (!s || s.part.damaged) return nothing;
    const readable = s.supply ? [{ of: id, name: `current of ${id}` }] : s.leds.map((l) => ({ of: l.led, name: l.name }));
    return readable.length > 0 ? html`<band-view .session=${session} .readable=${readable}></band-view>` : nothing;
  }

  private wireRows(wire: PlanWire) {
    const { builder } = this;
    if (!builder) return nothing;
    return html`<div class="card-fields">${(['from', 'to'] as const).map((end) => this.field(end, wire[end], (text) => builder.reEnd(wire.id, end, text)))}</div>
      <fieldset class="wire-colours"><legend class="visually-hidden">Colour</legend>
        ${WIRE_COLOURS.map(
          (
            c,
          ) => html`<label title=${c}><input type="radio" name="this-wire-colour" .checked=${wire.colour === c} @change=${() => this.try(builder.recolour([wire.id], c))} />
            <span class="swatch" style="--swatch:${wireInk(c)}"></span><span class="visually-hidden">${c}</span></label>`,
        )}</fieldset>
      <div class="card-acts">${this.acts()}${this.why(wire.id)}</div>`;
  }

  private boardRows({ id, splitRails }: PlanBoard) {
    const { builder } = this;
    if (!builder) return nothing;
    return html`<p class="quiet">${splitRails ? 'Rails cut in the middle.' : 'Rails continuous.'} Arrow keys move the board.</p>
      <div class="card-acts">
        ${this.act(splitRails ? 'Make rails continuous' : 'Cut rails', '', () => builder.cutRails(id, !splitRails))}
        ${this.act('Delete, with everything on it', 'Del', () => builder.remove())}
      </div>`;
  }

  private act(name: string, key: string, act: () => Outcome<unknown> | undefined) {
    return html`<button type="button" title=${key ? `${name} (${key})` : name} @click=${() => this.try(act())}>${name}</button>`;
  }

  private rotations() {
    const { builder } = this;
    if (!builder) return nothing;
    const way = (name: string, key: string, by: 1 | -1, path: string) => html`<button type="button" class="card-icon" aria-label=${name}
      title=${`${name} (${key})`} @click=${() => this.try(builder.rotate(by))}>${icon(path)}</button>`;
    return html`${way('Rotate left', '<', -1, 'M5 4v5h5M5.500 9a6 6 0 1 1-.5 4')}${way('Rotate', '>', 1, 'M15 4v5h-5M14.500 9a6 6 0 1 0 .5 4')}`;
  }

  private acts() {
    const { builder } = this;
    if (!builder) return nothing;
    return html`${this.act('Duplicate', 'Ctrl D', () => builder.duplicate())}
      <button type="button" aria-expanded=${this.repeating} @click=${() => {
        this.repeating = !this.repeating;
      }}>Repeat…</button>
      ${this.act('Delete', 'Del', () => builder.remove())}`;
  }

  private repeat() {
    if (!this.repeating) return nothing;
    return html`<form class="card-repeat" @submit=${(e: SubmitEvent) => {
      e.preventDefault();
      const data = new FormData(e.target as HTMLFormElement);
      this.try(this.builder?.repeat(Number(data.get('times')), Number(data.get('step'))));
    }}>
      <label>times <input name="times" type="number" min="1" max="62" value="7" /></label>
      <label>every <input name="step" type="number" min="-62" max="62" value="3" /> rows</label>
      <button type="submit" class="act">Repeat along the row</button>
    </form>`;
  }

  protected override render() {
    const { builder } = this;
    const [id, ...more] = builder?.chosen ?? [];
    if (!builder?.showing || id === undefined) return nothing;
    const { plan } = builder.session.model ?? {};
    const part = plan?.parts.find((p) => p.id === id);
    const wire = plan?.wires.find((l) => l.id === id);
    const board = plan?.boards.find((b) => b.id === id);
    if (!part && !wire && !board) return nothing;
    const head = more.length > 0 ? `${more.length + 1} items` : part ? (partKind(part.kind)?.title ?? part.kind) : board ? 'Board' : 'Wire';
    return html`<section class="card panel" aria-label="Selection">
      <h2><span class="figures">${more.length > 0 ? '' : id}</span> ${head}
        <button type="button" class="card-close plain" title="Deselect (Esc)" @click=${() => builder.select([])}>Done</button></h2>
      ${more.length > 0 ? html`<div class="card-acts">${this.rotations()}${this.acts()}</div>` : part ? this.partRows(part) : wire ? this.wireRows(wire) : board ? this.boardRows(board) : nothing}
      ${this.repeat()}
      <p class="refused" role="status">${this.refusal}</p>
    </section>`;
  }
}
