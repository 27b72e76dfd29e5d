/** Rules for the outputs: a text in the notation of the trade that fills the table, with every fault marked where it stands. */
import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { PlanWanted } from '../../../shared/plan.ts';
import {
  type Failure,
  type NewNames,
  NUMBER_TABLES,
  newNames,
  quotedName,
  withNamesOfRules,
  withWantedRules,
} from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';
import { LightElement } from '../../ui/light-element.ts';
import { withNumberTable } from './number-rule.ts';
import { pinChoice } from './pins.ts';
import { wantEvent } from './want.ts';

/** A text is read so long after the last key [ms]. */
const PAUSE = 250;

@customElement('rules-editor')
export class RulesEditor extends LightElement {
  @property({ attribute: false }) wanted: PlanWanted | undefined;
  @property({ attribute: false }) model: BenchModel | undefined;
  /** what is typed and not yet in the table */
  @state() private draft: string | undefined;
  @state() private fault: Failure | undefined;
  /** names of the text that the table does not have */
  @state() private missing: NewNames | undefined;
  @query('textarea') private readonly area!: HTMLTextAreaElement;
  private pause: ReturnType<typeof setTimeout> | undefined;

  override disconnectedCallback() {
    super.disconnectedCallback();
    clearTimeout(this.pause);
  }

  private get stored(): string {
    return this.wanted?.expressions?.join('\n') ?? '';
  }
  private get text(): string {
    return this.draft ?? this.stored;
  }

  private typed() {
    this.draft = this.area.value;
    clearTimeout(this.pause);
    this.pause = setTimeout(() => this.read(), PAUSE);
  }

  private read() {
    if (!this.wanted) return undefined;
    const next = withWantedRules(this.wanted, this.text);
    this.fault = next.ok ? undefined : next.failure;
    const names = (lines: readonly { readonly name: string }[]) => lines.map((l) => l.name);
    this.missing = next.ok ? undefined : newNames(this.text, names(this.wanted.inputs), names(this.wanted.outputs));
    return next;
  }

  private fill() {
    clearTimeout(this.pause);
    const next = this.read();
    if (!next?.ok) {
      this.toPlace();
      return;
    }
    this.draft = undefined;
    this.dispatchEvent(wantEvent(next));
  }

  /** Lines of the names, and the rules, in one act. */
  private make(names: NewNames) {
    const { wanted, model } = this;
    if (!wanted || !model) return;
    clearTimeout(this.pause);
    const next = withNamesOfRules(wanted, this.text, names, pinChoice(model));
    this.fault = next.ok ? undefined : next.failure;
    this.missing = undefined;
    if (!next.ok) return;
    this.draft = undefined;
    this.dispatchEvent(wantEvent(next));
  }

  /** Line and column that the fault names, from 1. */
  private get place(): { readonly line: number; readonly column: number | undefined } | undefined {
    const m = /line (\d+)(?:, column (\d+))?/.exec(this.fault?.at ?? '');
    return m ? { line: Number(m[1]), column: m[2] === undefined ? undefined : Number(m[2]) } : undefined;
  }

  private toPlace() {
    const { place, area } = this;
    if (!place) return;
    const lines = area.value.split('\n');
    const from = lines.slice(0, place.line - 1).reduce((n, l) => n + l.length + 1, 0);
    const length = lines[place.line - 1]?.length ?? 0;
    const column = place.column === undefined ? 0 : Math.min(place.column - 1, length);
    area.focus();
    area.setSelectionRange(from + column, from + length);
  }

  private number(e: Event) {
    const select = e.target;
    const { wanted, model } = this;
    if (!(select instanceof HTMLSelectElement) || !wanted || !model) return;
    const table = NUMBER_TABLES.find((t) => t.id === select.value);
    select.value = '';
    if (!table) return;
    this.draft = undefined;
    this.fault = undefined;
    this.dispatchEvent(wantEvent(withNumberTable(wanted, table, pinChoice(model))));
  }

  protected override render() {
    const { wanted, fault, place } = this;
    if (!wanted) return nothing;
    const changed = this.draft !== undefined && this.draft !== this.stored;
    const [first, second] = wanted.inputs;
    const [output] = wanted.outputs;
    const example = `${quotedName(output?.name ?? 'F')} = ${quotedName(first?.name ?? 'A')}${second ? ` and not ${quotedName(second.name)}` : ''}`;
    const lines = Math.max(4, Math.min(14, this.text.split('\n').length + 1));
    return html`<details class="fold-in" open>
      <summary>Rules</summary>
      <label class="visually-hidden" for="rules-text">Rules for the outputs, one per line</label>
      <textarea id="rules-text" class="figures" spellcheck="false" autocapitalize="off" autocomplete="off" rows=${lines} wrap="off"
        placeholder=${example} .value=${this.text} aria-invalid=${fault !== undefined} aria-describedby=${fault ? 'rules-fault' : 'rules-hint'}
        @input=${this.typed}
        @keydown=${(e: KeyboardEvent) => {
          if (e.key !== 'Enter' || !(e.ctrlKey || e.metaKey)) return;
          e.preventDefault();
          this.fill();
        }}></textarea>
      ${
        fault
          ? html`<div class="fault" id="rules-fault" role="alert"><p>${fault.says}</p>${place ? this.mark(place) : nothing}
              ${this.missing ? this.makeButton(this.missing) : nothing}
              ${place ? html`<button type="button" class="plain" @click=${() => this.toPlace()}>Go to the place</button>` : nothing}</div>`
          : html`<p class="quiet" id="rules-hint">AND, OR, NOT, XOR or their symbols; comparisons and sums of groups such as {B1, B0}.
              <code class="figures">${quotedName(output?.name ?? 'F')} dontcare when …</code> for rows where it does not matter; without a name, all outputs. Put names with spaces in quotation marks.</p>`
      }
      <p class="table-tools">
        <button type="button" class="act" @click=${this.fill}>${changed || this.stored === '' ? 'Fill the table' : 'Fill the table again'}</button>
        <select aria-label="Fill from a number table" @change=${this.number}>
          <option value="">Number table …</option>
          ${NUMBER_TABLES.map((t) => html`<option value=${t.id}>${t.title}</option>`)}
        </select>
      </p>
    </details>`;
  }

  private makeButton(names: NewNames) {
    const sides = (['inputs', 'outputs'] as const).filter((side) => names[side].length > 0);
    const says = sides.map((side) => `${side} of: ${names[side].join(', ')}`).join('; ');
    return html`<button type="button" class="act" @click=${() => this.make(names)}>Make ${says}</button>`;
  }

  /** The line at fault, with a mark under its place. */
  private mark({ line, column }: { readonly line: number; readonly column: number | undefined }) {
    const text = this.text.split('\n')[line - 1];
    if (text === undefined) return nothing;
    const at = (column ?? 1) - 1;
    // of a long line only what surrounds the place
    const from = Math.max(0, at - 24);
    const shown = text.slice(from, from + 44);
    const width = column === undefined ? shown.length : Math.max(1, /^[\p{L}\p{N}_]*/u.exec(text.slice(at))?.[0].length ?? 1);
    return html`<pre class="figures fault-place" aria-hidden="true">${line} │ ${from > 0 ? '…' : ''}${shown}
${' '.repeat(String(line).length)} │ ${from > 0 ? ' ' : ''}${' '.repeat(at - from)}${'^'.repeat(Math.max(1, Math.min(width, 44)))}</pre>`;
  }
}
