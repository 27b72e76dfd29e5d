/** The close-up: one chip drawn as blocks, live, or at the moment that the cursor of the timing strip stands at. */
import { html, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Builder } from '../edit/builder.ts';
import { FUNCTION_MARKS } from '../scene/faces/function-marks.ts';
import '../state/band-view.ts';
import { SessionElement } from '../state/session-element.ts';
import { type ChipView, seeChip } from './chip-view.ts';
import { cellAddress, memoryBlocks } from './memory-blocks.ts';
import { pinRow } from './pin-row.ts';

/** The notebook is then below the bench. */
const OVER_NOTEBOOK = matchMedia('(max-width: 60rem)');

@customElement('inside-view')
export class InsideView extends SessionElement {
  protected override readonly hears = ['readings', 'model', 'written'] as const;
  /** the part that is looked at */
  @property({ attribute: false }) chip: string | undefined;
  @property({ attribute: false }) builder: Builder | undefined;
  /** the address whose byte is to be stored, if a person has named one */
  @state() private picked: string | undefined;
  /** what became of the byte that was stored last */
  @state() private answer: { readonly says: string; readonly refused: boolean } | undefined;
  private off: (() => void) | undefined;

  protected override willUpdate(changed: Map<PropertyKey, unknown>) {
    if (changed.has('chip')) [this.picked, this.answer] = [undefined, undefined];
    this.off ??= this.session?.recordings.on(() => this.requestUpdate());
  }

  protected override updated(changed: Map<PropertyKey, unknown>) {
    if (changed.has('chip')) this.settle();
  }

  /** Its style sheet lays it over the notebook; on a narrow window it may reach over the bench's foot, and the chip is to stand above. */
  private settle() {
    const card = this.firstElementChild;
    const room = this.parentElement?.getBoundingClientRect();
    const covered = card && room && OVER_NOTEBOOK.matches ? Math.max(0, room.bottom - card.getBoundingClientRect().top) : 0;
    this.dispatchEvent(new CustomEvent<number>('covers', { detail: covered }));
  }
  private readonly resettle = () => this.settle();

  override connectedCallback() {
    super.connectedCallback();
    addEventListener('resize', this.resettle);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    removeEventListener('resize', this.resettle);
    this.off?.();
    this.off = undefined;
  }

  private close() {
    this.dispatchEvent(new CustomEvent('close-up', { detail: undefined }));
  }

  protected override render() {
    const { session, chip: part } = this;
    const sight = session && part ? seeChip(session, part) : undefined;
    if (!session || !part || !sight) return nothing;
    const { kind, part: placed } = sight.specimen;
    return html`<section class="closeup panel" aria-label="Inside view of ${part}" @keydown=${(e: KeyboardEvent) => {
      if (e.key !== 'Escape') return;
      e.stopPropagation();
      this.close();
    }}>
      <header>
        ${mark(kind.id)}
        <h2>${placed.label ?? part} <span class="quiet">${kind.title}</span></h2>
        <button type="button" class="plain" @click=${() => this.close()}>Close<span class="visually-hidden"> the inside view</span></button>
      </header>
      ${sight.recorded ? html`<p class="recorded">At the cursor of the timing diagram</p>` : nothing}
      ${kind.group === 'memory' ? html`${memoryBlocks(sight, session.memories[part], (address) => this.pick(address))}${this.store(sight, part)}` : logicBlocks(sight)}
      ${sight.recorded ? nothing : html`<band-view .session=${session} .readable=${readablePins(sight)}></band-view>`}
    </section>`;
  }

  private pick(address: string) {
    this.picked = address;
    this.answer = undefined;
    const field = this.querySelector<HTMLInputElement>('input[name=byte]');
    field?.focus();
    field?.select();
  }

  /** A byte set without a programming circuit: one change, which can be taken back. */
  private store({ state: { latched, address: now }, specimen }: ChipView, part: string) {
    const { word } = specimen;
    if (!word) return nothing;
    const bits = word.address.length;
    const at = this.picked ?? cellAddress((latched?.address ?? now)?.value ?? 0, bits);
    return html`<form class="store" aria-label="Store a byte" @submit=${(e: SubmitEvent) => {
      e.preventDefault();
      const data = new FormData(e.target as HTMLFormElement);
      const [address, byte] = [String(data.get('address')), String(data.get('byte'))];
      const done = this.builder?.store(part, address, byte);
      if (!done) return;
      this.answer = done.ok
        ? { says: `${byte.toUpperCase()} stored at 0x${address.trim().replace(/^0x/i, '').toUpperCase()}.`, refused: false }
        : { says: done.failure.says, refused: true };
    }}>
      <label>at <input name="address" size=${Math.ceil(bits / 4) + 1} autocomplete="off" spellcheck="false" .value=${at} @change=${(
        e: Event,
      ) => {
        this.picked = (e.target as HTMLInputElement).value;
      }} /></label>
      <label>the byte <input name="byte" size="3" autocomplete="off" spellcheck="false" placeholder="5A" /></label>
      <button type="submit" class="act">Store</button>
      <p class=${this.answer?.refused ? 'refused' : 'quiet'} role="status">${this.answer?.says ?? 'Set as a programmer would, without a write cycle.'}</p>
    </form>`;
  }
}

/** The voltage of each pin but the supply's, by its name. */
const readablePins = ({ pins, specimen: { part } }: ChipView) =>
  pins.filter((p) => p.level !== '').map((p) => ({ of: `${part.id}.${p.pin}`, name: `pin ${p.pin} ${p.name}` }));

function mark(kind: string) {
  const d = FUNCTION_MARKS[kind]?.d;
  return d ? html`<svg class="closeup-mark" viewBox="-12 -12 24 24" aria-hidden="true">${svg`<path d=${d} />`}</svg>` : nothing;
}

/** Of a logic chip: what goes in, what comes out, and both as one row of its function. */
function logicBlocks({ pins, state }: ChipView) {
  const into = pins.filter((p) => p.role === 'input' || (p.role === 'both' && p.level !== ''));
  const out = pins.filter((p) => p.role === 'output' || p.role === 'both');
  const read = into.filter((p) => p.role === 'input');
  const row = (list: typeof pins) => list.map((p) => p.level || '–').join(' ');
  return html`<p class="mode">${state.doing === 'no supply' ? 'There is no supply.' : state.doing === 'high-impedance' ? 'All its outputs are high-impedance (Z).' : 'It works.'}</p>
    ${pinRow('Inputs', into)} ${pinRow('Outputs', out)}
    <table class="function-row figures">
      <caption class="quiet">Function row</caption>
      <thead><tr>${read.map((p) => html`<th scope="col">${p.name}</th>`)}<td class="becomes" aria-hidden="true">→</td>${out.map((p) => html`<th scope="col">${p.name}</th>`)}</tr></thead>
      <tbody><tr>${read.map((p) => html`<td>${p.level || '–'}</td>`)}<td class="becomes" aria-hidden="true">→</td>${out.map((p) => html`<td>${p.level || '–'}</td>`)}</tr></tbody>
    </table>
    <p class="visually-hidden">Inputs ${row(read)} give ${row(out)}.</p>`;
}
