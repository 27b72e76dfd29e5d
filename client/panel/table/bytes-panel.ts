/** Bytes out of the table and the memories: as files, with what stands at addresses the table does not ask for, and stored at once; files come in below. */
import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Plan } from '../../../shared/plan.ts';
import { done, sayChecksums, storeImage, type Unasked } from '../../../sim-core/index.ts';
import type { Session } from '../../state/session.ts';
import { LightElement } from '../../ui/light-element.ts';
import { offerFile } from '../../ui/offer-file.ts';
import { IMAGE_FORMATS, type ImageFormat } from './image-files.ts';
import { asked, held, type Memory, sayOtherPins, wantingWhat } from './read-out.ts';
import './read-out-panel.ts';
import { wantEvent } from './want.ts';

const UNASKED: ReadonlyArray<readonly [Unasked, string]> = [
  ['left out', 'left out'],
  ['FF', 'FF, as erased'],
  ['00', '00'],
  ['the table again', 'repeat the table'],
];

@customElement('bytes-panel')
export class BytesPanel extends LightElement {
  @property({ attribute: false }) session: Session | undefined;
  /** the address asks for them: they are opened and brought into sight */
  @property({ type: Boolean }) asked = false;
  @state() private chosen: string | undefined;
  @state() private source: 'wanted' | 'stored' = 'wanted';
  @state() private unasked: Unasked = 'left out';

  private get memories(): readonly Memory[] {
    return (this.session?.model?.specimens ?? []).flatMap(({ part, word }) => (word ? [{ id: part.id, ...word }] : []));
  }

  private image(plan: Plan, memory: Memory) {
    const wanted = this.source === 'wanted' ? asked(plan, this.session?.pins ?? [], memory, this.unasked) : undefined;
    return wanted?.image ?? held(plan, memory);
  }

  private save(format: ImageFormat, plan: Plan, memory: Memory) {
    offerFile(`${plan.title} ${memory.id}`, format.endings[0] ?? format.id, format.write(this.image(plan, memory)));
  }

  private wantHeld(session: Session, plan: Plan, memory: Memory) {
    const next = plan.wanted && wantingWhat(plan.wanted, plan, session.pins, memory.id, held(plan, memory));
    if (next) this.dispatchEvent(wantEvent(done(next)));
  }

  protected override updated(changed: Map<PropertyKey, unknown>) {
    const fold = this.querySelector('details');
    if (!changed.has('asked') || !this.asked || !fold) return;
    fold.open = true;
    fold.scrollIntoView({ block: 'nearest' });
  }

  protected override render() {
    const { session, memories } = this;
    const plan = session?.plan;
    if (!session || !plan) return nothing;
    const memory = memories.find((m) => m.id === this.chosen) ?? memories[0];
    return html`<details class="fold-in">
      <summary>Bytes</summary>
      ${memory ? this.body(session, plan, memory) : html`<p class="quiet">There is no memory on this bench. Take one from Parts, or build a bench from the table.</p>`}
    </details>`;
  }

  private body(session: Session, plan: Plan, memory: Memory) {
    const pins = session.pins.find((p) => p.memory === memory.id);
    const wanted = pins !== undefined && this.source === 'wanted';
    const others = pins ? sayOtherPins(memory, pins) : '';
    return html`<div class="bytes">
      <div class="byte-choices">
        ${
          this.memories.length > 1
            ? html`<label><span>Memory</span><select aria-label="Memory" @change=${(e: Event) => {
                if (e.target instanceof HTMLSelectElement) this.chosen = e.target.value;
              }}>${this.memories.map((m) => html`<option ?selected=${m.id === memory.id}>${m.id}</option>`)}</select></label>`
            : nothing
        }
        <label><span>Bytes</span><select aria-label="Bytes" @change=${(e: Event) => {
          if (e.target instanceof HTMLSelectElement) this.source = e.target.value === 'stored' ? 'stored' : 'wanted';
        }}>
          ${pins ? html`<option value="wanted" ?selected=${wanted}>what the table wants in ${memory.id}</option>` : nothing}
          <option value="stored" ?selected=${!wanted}>what ${memory.id} holds now</option>
        </select></label>
        ${
          wanted
            ? html`<label><span>Unused addresses</span><select aria-label="Unused addresses" @change=${(e: Event) => {
                if (e.target instanceof HTMLSelectElement) this.unasked = UNASKED[e.target.selectedIndex]?.[0] ?? 'left out';
              }}>${UNASKED.map(([id, says]) => html`<option ?selected=${id === this.unasked}>${says}</option>`)}</select></label>`
            : nothing
        }
      </div>
      ${others ? html`<p class="quiet">${others}</p>` : nothing}
      <p class="table-tools">
        ${IMAGE_FORMATS.map((f) => html`<button type="button" class="tool" aria-label="Save as ${f.title}" @click=${() => this.save(f, plan, memory)}>${f.title}</button>`)}
        ${
          wanted
            ? html`<button type="button" class="tool" @click=${() => session.edit(storeImage(plan, memory.id, this.image(plan, memory)))}>Store in ${memory.id}</button>`
            : html`${pins ? html`<button type="button" class="tool" @click=${() => this.wantHeld(session, plan, memory)}>Take as wanted</button>` : nothing}`
        }
      </p>
      <p class="quiet checksums">${sayChecksums(this.image(plan, memory))}</p>
      <read-out-panel .session=${session} .memory=${memory}></read-out-panel>
    </div>`;
  }
}
