/** The close-up: one chip drawn as blocks, live, or at the moment that the cursor of the timing strip stands at. */
import { html, LitElement, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { Listen } from '../listen.ts';
import { FUNCTION_MARKS } from '../scene/faces/function-marks.ts';
import type { Session } from '../session.ts';
import { type ChipSight, seeChip } from './chip-sight.ts';
import { memoryBlocks } from './memory-blocks.ts';
import { pinRow } from './pin-row.ts';

@customElement('chip-closeup')
export class ChipCloseup extends LitElement {
  @property({ attribute: false }) session: Session | undefined;
  /** the part that is looked at */
  @property({ attribute: false }) chip: string | undefined;
  private off: (() => void) | undefined;

  constructor() {
    super();
    new Listen(this, () => this.session, ['readings', 'standing', 'written']);
  }

  protected override createRenderRoot() {
    return this;
  }

  protected override willUpdate() {
    this.off ??= this.session?.recordings.on(() => this.requestUpdate());
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
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
    return html`<section class="closeup panel" aria-label="Close-up of ${part}" @keydown=${(e: KeyboardEvent) => {
      if (e.key !== 'Escape') return;
      e.stopPropagation();
      this.close();
    }}>
      <header>
        ${mark(kind.id)}
        <h2>${placed.label ?? part} <span class="quiet">${kind.title}</span></h2>
        <button type="button" class="plain" @click=${() => this.close()}>Close<span class="visually-hidden"> the close-up</span></button>
      </header>
      ${sight.recorded ? html`<p class="recorded">At the cursor of the timing strip</p>` : nothing}
      ${kind.group === 'memory' ? memoryBlocks(sight, session.memories[part]) : logicBlocks(sight)}
    </section>`;
  }
}

function mark(kind: string) {
  const d = FUNCTION_MARKS[kind]?.d;
  return d ? html`<svg class="closeup-mark" viewBox="-12 -12 24 24" aria-hidden="true">${svg`<path d=${d} />`}</svg>` : nothing;
}

/** Of a logic chip: what goes in, what comes out, and both as one row of its function. */
function logicBlocks({ pins, state }: ChipSight) {
  const into = pins.filter((p) => p.role === 'input' || (p.role === 'both' && p.level !== ''));
  const out = pins.filter((p) => p.role === 'output' || p.role === 'both');
  const read = into.filter((p) => p.role === 'input');
  const row = (list: typeof pins) => list.map((p) => p.level || '–').join(' ');
  return html`<p class="mode">${state.doing === 'no supply' ? 'There is no supply.' : state.doing === 'off the bus' ? 'All its outputs have let go.' : 'It works.'}</p>
    ${pinRow('Inputs', into)} ${pinRow('Outputs', out)}
    <table class="function-row figures">
      <caption class="quiet">Function row</caption>
      <thead><tr>${read.map((p) => html`<th scope="col">${p.name}</th>`)}<td class="becomes" aria-hidden="true">→</td>${out.map((p) => html`<th scope="col">${p.name}</th>`)}</tr></thead>
      <tbody><tr>${read.map((p) => html`<td>${p.level || '–'}</td>`)}<td class="becomes" aria-hidden="true">→</td>${out.map((p) => html`<td>${p.level || '–'}</td>`)}</tr></tbody>
    </table>
    <p class="visually-hidden">Inputs ${row(read)} give ${row(out)}.</p>`;
}
