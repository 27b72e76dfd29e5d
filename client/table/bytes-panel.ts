/** Bytes in and out of the memories: images saved and opened, and a read-out of the real chip compared in words. */
import { html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Plan } from '../../shared/plan.ts';
import { type Change, type FileRead, hexAddress, type Outcome } from '../core.ts';
import { offerFile } from '../plans/plan-files.ts';
import type { Session } from '../session.ts';
import type { Compared } from '../worker/jobs.ts';
import { IMAGE_FORMATS, type ImageFormat, readImage } from './image-files.ts';
import { type Against, against, held, type Memory, merging, putting, rowAt, wantingWhat } from './read-out.ts';
import { Reckoning } from './reckoning.ts';
import { wantEvent } from './want.ts';

/** Rows that differ and are listed. */
const LISTED = 24;

interface ReadOut {
  readonly name: string;
  readonly file: FileRead;
  readonly memory: string;
  readonly against: Against;
}

@customElement('bytes-panel')
export class BytesPanel extends LitElement {
  @property({ attribute: false }) session: Session | undefined;
  @state() private chosen: string | undefined;
  @state() private source: 'wanted' | 'stored' = 'wanted';
  @state() private readOut: ReadOut | undefined;
  @state() private compared: Outcome<Compared> | undefined;
  @state() private fault: { readonly says: string; readonly clash?: true } | undefined;
  @state() private over = false;
  @query('input[type=file]') private readonly file!: HTMLInputElement;
  private readonly comparer = new Reckoning();

  protected override createRenderRoot() {
    return this;
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.comparer.close();
  }

  private get memories(): readonly Memory[] {
    return (this.session?.standing?.specimens ?? []).flatMap(({ part, word }) => (word ? [{ id: part.id, ...word }] : []));
  }
  private get memory(): Memory | undefined {
    const { memories } = this;
    return memories.find((m) => m.id === this.chosen) ?? memories[0];
  }

  private save(format: ImageFormat, plan: Plan, memory: Memory) {
    const image = this.source === 'wanted' ? against(plan, this.session?.pins ?? [], memory).image : held(plan, memory);
    offerFile(`${plan.title} ${memory.id}`, format.endings[0] ?? format.id, format.write(image));
  }

  private async open(file: File | undefined) {
    const { memory } = this;
    const plan = this.session?.plan;
    if (!file || !plan || !memory) return;
    this.readOut = undefined;
    this.compared = undefined;
    const read = await readImage(file, 2 ** memory.address.length);
    this.fault = read.ok ? undefined : read.failure;
    if (!read.ok) return;
    const beside = against(plan, this.session?.pins ?? [], memory);
    this.readOut = { name: file.name, file: read.value, memory: memory.id, against: beside };
    const answer = await this.comparer.begin({ job: 'compare', wanted: beside.image, seen: read.value.image, dataPins: beside.dataPins });
    if (answer) this.compared = answer;
  }

  private store(change: Outcome<Change>) {
    this.fault = change.ok ? undefined : { ...change.failure, clash: true };
    if (change.ok) this.session?.edit(change.value);
  }

  protected override render() {
    const { session, memory } = this;
    const plan = session?.plan;
    if (!session || !plan) return nothing;
    return html`<details class="fold-in">
      <summary>Bytes</summary>
      ${memory ? this.body(session, plan, memory) : html`<p class="quiet">There is no memory on this bench. Take one from the shelf, or build a bench from the table.</p>`}
    </details>`;
  }

  private body(session: Session, plan: Plan, memory: Memory) {
    const asked = session.pins.some((p) => p.memory === memory.id);
    return html`<div class="bytes ${this.over ? 'dropping' : ''}"
      @dragover=${(e: DragEvent) => {
        e.preventDefault();
        this.over = true;
      }}
      @dragleave=${() => {
        this.over = false;
      }}
      @drop=${(e: DragEvent) => {
        e.preventDefault();
        this.over = false;
        void this.open(e.dataTransfer?.files[0]);
      }}>
      <p class="table-tools">
        ${
          this.memories.length > 1
            ? html`<select aria-label="Memory" @change=${(e: Event) => {
                if (e.target instanceof HTMLSelectElement) this.chosen = e.target.value;
              }}>${this.memories.map((m) => html`<option ?selected=${m.id === memory.id}>${m.id}</option>`)}</select>`
            : nothing
        }
        <select aria-label="Which bytes are saved" @change=${(e: Event) => {
          if (e.target instanceof HTMLSelectElement) this.source = e.target.value === 'stored' ? 'stored' : 'wanted';
        }}>
          ${asked ? html`<option value="wanted" ?selected=${this.source === 'wanted'}>what the table wants in ${memory.id}</option>` : nothing}
          <option value="stored" ?selected=${this.source === 'stored' || !asked}>what ${memory.id} holds now</option>
        </select>
        ${IMAGE_FORMATS.map((f) => html`<button type="button" class="tool" aria-label="Save as ${f.title}" @click=${() => this.save(f, plan, memory)}>${f.title}</button>`)}
      </p>
      <p class="drop-here">Drop an image or a read-out of the real chip here, or
        <button type="button" class="plain" @click=${() => this.file.click()}>choose a file</button>.
        <input type="file" data-for="image" hidden aria-label="Image or read-out from a file" @change=${() => {
          const [file] = this.file.files ?? [];
          void this.open(file).finally(() => {
            this.file.value = '';
          });
        }} /></p>
      ${
        this.fault
          ? html`<div class="fault" role="alert"><p>${this.fault.says}</p>
        ${this.fault.clash && this.readOut ? html`<button type="button" class="plain" @click=${() => this.readOut && this.store(merging(plan, memory, this.readOut.file, 'second'))}>Let the file win</button>` : nothing}</div>`
          : nothing
      }
      ${this.readOut ? this.beside(session, plan, this.readOut) : nothing}
      ${
        plan.wanted && asked
          ? html`<button type="button" class="plain" @click=${() => this.takeAsWanted(plan, memory, held(plan, memory).bytes)}>Want what ${memory.id} holds now</button>`
          : nothing
      }
    </div>`;
  }

  private takeAsWanted(plan: Plan, memory: Memory, bytes: Uint8Array) {
    const next = plan.wanted && wantingWhat(plan.wanted, plan, this.session?.pins ?? [], memory.id, bytes);
    if (next) this.dispatchEvent(wantEvent({ ok: true, value: next }));
  }

  private beside(session: Session, plan: Plan, readOut: ReadOut) {
    const memory = this.memories.find((m) => m.id === readOut.memory);
    if (!memory) return nothing;
    const { file, name } = readOut;
    const given = file.image.given.reduce((n, g) => n + (g === 0 ? 0 : 1), 0);
    return html`<section class="read-out" aria-label="Read-out ${name}">
      <h3>${name} <span class="quiet">${given} of ${file.image.bytes.length} bytes</span></h3>
      ${file.remarks.map((r) => html`<p class="quiet">${r}</p>`)}
      ${this.verdict(session, readOut)}
      <p class="table-tools">
        <button type="button" class="act" @click=${() => this.store({ ok: true, value: putting(plan, memory, file.image) })}>Put it into ${memory.id}</button>
        <button type="button" class="tool" @click=${() => this.store(merging(plan, memory, file, 'nobody'))}>Merge it into ${memory.id}</button>
        ${plan.wanted && session.pins.some((p) => p.memory === memory.id) ? html`<button type="button" class="tool" @click=${() => this.takeAsWanted(plan, memory, file.image.bytes)}>Take it as wanted</button>` : nothing}
        <button type="button" class="tool" @click=${() => {
          this.readOut = undefined;
          this.fault = undefined;
        }}>Put it away</button>
      </p>
    </section>`;
  }

  private verdict(session: Session, { against: beside, memory, file }: ReadOut) {
    const { compared } = this;
    if (!compared)
      return this.comparer.busy
        ? html`<p class="quiet" role="status">Comparing with ${beside.called} …
        <button type="button" class="plain" @click=${() => this.comparer.end()}>Stop</button></p>`
        : nothing;
    if (!compared.ok) return html`<p class="fault">${compared.failure.says}</p>`;
    const { says, differs } = compared.value;
    const pins = session.pins.find((p) => p.memory === memory);
    return html`<p class="quiet">Beside ${beside.called}:</p>
      <div role="status" class="verdict">${says.map((s) => html`<p>${s}</p>`)}</div>
      ${
        differs.length > 0
          ? html`<ul class="wrong-bytes">${differs.slice(0, LISTED).map(({ address, bits }) => {
              const row = rowAt(pins, address);
              const [is, should] = [file.image.bytes[address] ?? 0, beside.image.bytes[address] ?? 0].map((b) =>
                b.toString(2).padStart(8, '0'),
              );
              return html`<li>${
                row === undefined
                  ? html`<span>${hexAddress(address, file.image.bytes.length)}</span>`
                  : html`<button type="button" class="row-go" aria-label="Set the switches to row ${row}" @click=${() => this.dispatchEvent(new CustomEvent('row', { detail: row, bubbles: true }))}>${row}</button>`
              } <span class="bits">${[...(is ?? '')].map((b, i) => ((bits >> (7 - i)) & 1 ? html`<b class="off">${b}</b>` : b))}</span>
                <span class="quiet">should be</span> <span class="bits">${should}</span></li>`;
            })}</ul>
            ${differs.length > LISTED ? html`<p class="quiet">The first ${LISTED} of ${differs.length}.</p>` : nothing}`
          : nothing
      }`;
  }
}
