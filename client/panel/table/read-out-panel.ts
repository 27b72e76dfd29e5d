/** A file of bytes, such as a read-out of the real chip: opened or dropped, judged in words, and put, merged or taken as wanted. */
import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Plan } from '../../../shared/plan.ts';
import {
  type Change,
  done,
  type FileRead,
  grouped,
  hexAddress,
  type MemoryImage,
  type Outcome,
  rowOf,
  sayChecksums,
} from '../../../sim-core/index.ts';
import type { Session } from '../../state/session.ts';
import { LightElement } from '../../ui/light-element.ts';
import { JobClient } from '../../worker/job-client.ts';
import type { ImagesCompared } from '../../worker/jobs.ts';
import { readImage } from './image-files.ts';
import { type Against, type Memory, merging, putting, readOutBeside, wantingWhat } from './read-out.ts';
import { wantEvent } from './want.ts';

/** Bytes that differ and are listed. */
const LISTED = 24;

interface ReadOut {
  readonly name: string;
  readonly file: FileRead;
  readonly memory: string;
}

@customElement('read-out-panel')
export class ReadOutPanel extends LightElement {
  @property({ attribute: false }) session: Session | undefined;
  @property({ attribute: false }) memory: Memory | undefined;
  @state() private readOut: ReadOut | undefined;
  /** the file that lay here before this one */
  @state() private earlier: ReadOut | undefined;
  @state() private beside: Against['id'] = 'wanted';
  @state() private compared: { readonly against: Against; readonly found: Outcome<ImagesCompared> | undefined } | undefined;
  @state() private fault: { readonly says: string; readonly clash?: true } | undefined;
  @state() private over = false;
  /** address in the file that is the memory's first */
  @state() private from = 0;
  private opened: File | undefined;
  @query('input[type=file]') private readonly file!: HTMLInputElement;
  private readonly comparer = new JobClient();

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.comparer.close();
  }

  private async open(file: File | undefined, again = false) {
    const { memory } = this;
    if (!file || !memory) return;
    this.opened = file;
    const last = this.readOut;
    this.readOut = undefined;
    const read = await readImage(file, { size: 2 ** memory.address.length, from: this.from });
    this.fault = read.ok ? undefined : read.failure;
    if (last && !again) this.earlier = last;
    if (!read.ok) return;
    this.readOut = { name: file.name, file: read.value, memory: memory.id };
    await this.compare();
  }

  private async compare() {
    const { session, memory, readOut } = this;
    const plan = session?.plan;
    if (!plan || !memory || !readOut) return;
    const choice = this.choices(plan, session, memory);
    const against = choice.find((a) => a.id === this.beside) ?? choice[0];
    if (!against) return;
    this.compared = { against, found: undefined };
    const pins = session.pins.find((p) => p.memory === memory.id);
    const found = await this.comparer.begin({
      job: 'compare',
      wanted: against.image,
      seen: readOut.file.image,
      dataPins: memory.data.length,
      ...(pins && plan.wanted ? { of: { pins, outputs: plan.wanted.outputs.map((o) => o.name) } } : {}),
    });
    if (this.compared?.against === against) this.compared = { against, found };
  }

  private choices(plan: Plan, session: Session, memory: Memory): readonly Against[] {
    const before = this.earlier?.memory === memory.id ? { name: this.earlier.name, image: this.earlier.file.image } : undefined;
    return readOutBeside(plan, session.pins, memory, before);
  }

  private store(change: Outcome<Change>) {
    this.fault = change.ok ? undefined : { ...change.failure, clash: true };
    if (!change.ok) return;
    this.session?.edit(change.value);
    void this.compare();
  }

  private takeAsWanted(plan: Plan, memory: Memory, image: MemoryImage) {
    const next = plan.wanted && wantingWhat(plan.wanted, plan, this.session?.pins ?? [], memory.id, image);
    if (next) this.dispatchEvent(wantEvent(done(next)));
  }

  private putAway() {
    this.readOut = undefined;
    this.earlier = undefined;
    this.fault = undefined;
    this.opened = undefined;
  }

  protected override render() {
    const { session, memory, readOut } = this;
    const plan = session?.plan;
    if (!session || !plan || !memory) return nothing;
    return html`<div class="drop-here ${this.over ? 'dropping' : ''}"
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
        }}>Drop an image, or a read-out of the real chip, here, or
        <button type="button" class="plain" @click=${() => this.file.click()}>choose a file</button>.
        <label class="from">${memory.id} begins at <input type="text" size="7" spellcheck="false" autocomplete="off" .value=${hexAddress(this.from)}
          aria-label="Address in the file at which ${memory.id} begins, hexadecimal" @change=${this.begun} /> of the file.</label>
        <input type="file" data-for="image" hidden aria-label="Image or read-out from a file" @change=${() => {
          const [file] = this.file.files ?? [];
          void this.open(file).finally(() => {
            this.file.value = '';
          });
        }} /></div>
      ${this.fault ? this.faultNote(plan, memory, this.fault) : nothing}
      ${readOut && readOut.memory === memory.id ? this.laid(session, plan, memory, readOut) : nothing}`;
  }

  private begun(e: Event) {
    const field = e.target;
    if (!(field instanceof HTMLInputElement)) return;
    const figures = /^\s*(?:0x)?([0-9a-f]{1,8})\s*$/i.exec(field.value)?.[1];
    if (figures === undefined) {
      this.fault = { says: `"${field.value}" is not an address. Write hexadecimal digits, such as 8000.` };
      return;
    }
    this.from = Number.parseInt(figures, 16);
    field.value = hexAddress(this.from);
    this.fault = undefined;
    void this.open(this.opened, true);
  }

  private faultNote(plan: Plan, memory: Memory, { says, clash }: { readonly says: string; readonly clash?: true }) {
    const { readOut } = this;
    const settle = (counts: 'memory' | 'file') => () => readOut && this.store(merging(plan, memory, readOut.file, counts));
    return html`<div class="fault" role="alert"><p>${says}</p>
      ${
        clash && readOut
          ? html`<p class="table-tools"><button type="button" class="tool" @click=${settle('file')}>Take the file's bytes</button>
              <button type="button" class="tool" @click=${settle('memory')}>Keep what ${memory.id} holds</button></p>`
          : nothing
      }</div>`;
  }

  private laid(session: Session, plan: Plan, memory: Memory, { file, name }: ReadOut) {
    const given = file.image.given.reduce((n, g) => n + (g === 0 ? 0 : 1), 0);
    const choices = this.choices(plan, session, memory);
    const now = this.compared?.against.id;
    return html`<section class="read-out" aria-label="Read-out ${name}">
      <h3>${name} <span class="quiet">${grouped(given)} of ${grouped(file.image.bytes.length)} bytes</span></h3>
      ${file.remarks.map((r) => html`<p class="quiet">${r}</p>`)}
      <p class="quiet checksums">${sayChecksums(file.image)}</p>
      <label class="beside"><span class="quiet">Beside</span> <select aria-label="Compared with" @change=${(e: Event) => {
        if (!(e.target instanceof HTMLSelectElement)) return;
        this.beside = choices[e.target.selectedIndex]?.id ?? 'wanted';
        void this.compare();
      }}>${choices.map((a) => html`<option ?selected=${a.id === now}>${a.called}</option>`)}</select></label>
      ${this.verdict(session, memory, file)}
      <p class="table-tools">
        <button type="button" class="act" @click=${() => this.store(done(putting(plan, memory, file.image)))}>Put it into ${memory.id}</button>
        <button type="button" class="tool" @click=${() => this.store(merging(plan, memory, file, 'neither'))}>Merge it into ${memory.id}</button>
        ${plan.wanted && session.pins.some((p) => p.memory === memory.id) ? html`<button type="button" class="tool" @click=${() => this.takeAsWanted(plan, memory, file.image)}>Take as wanted</button>` : nothing}
        <button type="button" class="tool" @click=${() => this.putAway()}>Close</button>
      </p>
    </section>`;
  }

  private verdict(session: Session, { id }: Memory, file: FileRead) {
    const { compared } = this;
    if (!compared) return nothing;
    const { against, found } = compared;
    if (!found)
      return this.comparer.busy
        ? html`<p class="quiet" role="status">Comparing with ${against.called} … <button type="button" class="plain" @click=${() => this.comparer.end()}>Stop</button></p>`
        : html`<p class="quiet">Stopped. <button type="button" class="plain" @click=${() => void this.compare()}>Compare</button></p>`;
    if (!found.ok) return html`<p class="fault">${found.failure.says}</p>`;
    const { says, differs } = found.value;
    const pins = session.pins.find((p) => p.memory === id);
    return html`<div role="status" class="verdict">${says.map((s) => html`<p>${s}</p>`)}</div>
      ${
        differs.length > 0
          ? html`<ul class="wrong-bytes">${differs.slice(0, LISTED).map(({ address, bits, ...words }) => {
              const row = pins && rowOf(pins, address);
              const [is, should] = [words.is, words.should].map((b) => b.toString(2).padStart(8, '0'));
              return html`<li>${
                row === undefined
                  ? html`<span class="figures">${hexAddress(address, file.image.bytes.length)}</span>`
                  : html`<button type="button" class="row-go" aria-label="Set the switches to row ${row}" @click=${() => this.dispatchEvent(new CustomEvent('row', { detail: row, bubbles: true }))}>${row}</button>`
              } <span class="bits">${[...(is ?? '')].map((b, i) => ((bits >> (7 - i)) & 1 ? html`<b class="off">${b}</b>` : b))}</span>
                <span class="quiet">${against.id === 'wanted' ? 'should be' : 'beside'}</span> <span class="bits">${should}</span></li>`;
            })}</ul>
            ${differs.length > LISTED ? html`<p class="quiet">The first ${LISTED} of ${grouped(differs.length)}.</p>` : nothing}`
          : nothing
      }`;
  }
}
