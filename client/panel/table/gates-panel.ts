/** Gates the memory replaces: the shortest sums of products of the outputs, how many gates and packages they would take, and one of them drawn. */
import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { sameValue } from '../../../shared/same-value.ts';
import {
  type GateCount,
  grouped,
  hasXor,
  type Notation,
  type Outcome,
  type OutputForm,
  printForm,
  type SumOfProducts,
  type TruthTable,
} from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';
import { LightElement } from '../../ui/light-element.ts';
import { JobClient } from '../../worker/job-client.ts';
import type { JobSums } from '../../worker/jobs.ts';
import type { Columns } from './columns.ts';
import { drawSum } from './gates-drawing.ts';
import { drawPackages } from './packages-drawing.ts';

const NOTATIONS: ReadonlyArray<readonly [Notation, string]> = [
  ['words', 'words'],
  ['signs', 'signs'],
  ['textbook', 'textbook'],
];
/** Products written; more are counted. */
const WRITTEN = 10;
/** Pins of a memory on a bench that has none. */
const MEMORY_PINS = 24;
/** Bits of one memory's word. */
const WORD = 8;

const isSameTable = (a: TruthTable, b: TruthTable): boolean =>
  a === b ||
  (sameValue([a.inputs, a.outputs], [b.inputs, b.outputs]) &&
    a.values.every((v, row) => v === b.values[row]) &&
    a.dontCare.every((d, row) => d === b.dontCare[row]));

@customElement('gates-panel')
export class GatesPanel extends LightElement {
  @property({ attribute: false }) columns: Columns | undefined;
  @property({ attribute: false }) model: BenchModel | undefined;
  @state() private open = false;
  @state() private far: number | undefined;
  @state() private found: { readonly table: TruthTable; readonly sums: Outcome<JobSums> | undefined } | undefined;
  @state() private output = 0;
  @state() private notation: Notation = 'words';
  private readonly jobs = new JobClient((part) => {
    this.far = part;
  });

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.jobs.close();
  }

  protected override updated() {
    const table = this.columns?.wanted;
    // every reading of the bench gives a new table object: the search restarts only if its contents differ
    if (this.open && table && !(this.found && isSameTable(table, this.found.table))) void this.work(table);
  }

  private async work(table: TruthTable) {
    this.found = { table, sums: undefined };
    this.far = 0;
    const sums = await this.jobs.begin({ job: 'sums', table });
    if (this.found?.table !== table) return;
    this.far = undefined;
    this.found = { table, sums };
  }

  protected override render() {
    return html`<details class="fold-in" @toggle=${(e: Event) => {
      this.open = e.target instanceof HTMLDetailsElement && e.target.open;
      if (!this.open) this.jobs.end();
    }}>
      <summary>Gates the memory replaces</summary>
      ${this.open ? this.body() : nothing}
    </details>`;
  }

  private body() {
    const { found, far } = this;
    const outputs = this.columns?.wanted.outputs ?? [];
    if (far !== undefined)
      return html`<p class="quiet progress"><progress aria-label="Sums worked out" max="1" .value=${far}></progress>
        Searching for the shortest sum of ${outputs[Math.min(outputs.length - 1, Math.floor(far * outputs.length))]} …
        <button type="button" class="plain" @click=${() => this.jobs.end()}>Stop</button></p>`;
    if (!found) return nothing;
    const { table, sums } = found;
    if (!sums)
      return html`<p class="quiet">Stopped. <button type="button" class="plain" @click=${() => void this.work(table)}>Compute</button></p>`;
    if (!sums.ok) return html`<p class="fault">${sums.failure.says}</p>`;
    const output = Math.min(this.output, table.outputs.length - 1);
    const [sum, form] = [sums.value.sums[output], sums.value.forms[output]];
    if (!sum || !form) return nothing;
    const packages = Math.min(sums.value.narrow.packages, sums.value.wide.packages);
    return html`<p>${replaces(sums.value, table.outputs.length)}</p>
      ${packages > 0 ? drawPackages(packages, Math.ceil(table.outputs.length / WORD), this.memoryPins) : nothing}
      <p class="table-tools">
        <select aria-label="Output drawn" @change=${(e: Event) => {
          if (e.target instanceof HTMLSelectElement) this.output = Number(e.target.value);
        }}>${table.outputs.map((name, i) => html`<option value=${i} ?selected=${i === output}>${name}</option>`)}</select>
        <select aria-label="Notation" @change=${(e: Event) => {
          if (e.target instanceof HTMLSelectElement) this.notation = NOTATIONS[e.target.selectedIndex]?.[0] ?? 'words';
        }}>${NOTATIONS.map(([id, title]) => html`<option ?selected=${id === this.notation}>${title}</option>`)}</select>
      </p>
      ${this.written(table, output, form)}
      ${drawSum(form, table.inputs, table.outputs[output] ?? '')}
      <p class="quiet shortness">${shortness(sum, form)}</p>`;
  }

  /** A product a line, for eyes that compare them. */
  private written(table: TruthTable, output: number, form: OutputForm) {
    const lines = printForm(form, table.inputs, this.notation);
    const more = lines.length - WRITTEN;
    return html`<p class="figures sum"><span>${table.outputs[output]} = </span>
      ${lines.slice(0, WRITTEN).map((line) => html`<span>${line} </span>`)}
      ${more > 0 ? html`<span class="quiet">and ${many(more, 'more product')}</span>` : nothing}</p>`;
  }

  private get memoryPins(): number {
    return this.model?.specimens.find((s) => s.word)?.legs.length ?? MEMORY_PINS;
  }
}

const many = (n: number, one: string): string => `${grouped(n)} ${one}${n === 1 ? '' : 's'}`;

function replaces({ forms, narrow, wide }: JobSums, outputs: number): string {
  const said = ({ gateCount, packages }: GateCount) => `${many(gateCount, 'gate')} in ${many(packages, 'package')}`;
  const xor = forms.some(hasXor);
  const made = ` of ${[...(narrow.products > 0 ? [many(narrow.products, 'product')] : []), ...(xor ? [many(narrow.gates.xor2, 'XOR gate')] : [])].join(' and ')}`;
  if (narrow.gateCount === 0) return `${many(outputs, 'output')}, and not one gate: every output is an input as it is, or always the same.`;
  return `${many(outputs, 'output')}${made} would take ${said(narrow)} of two-input gates and inverters, or ${said(wide)} with gates of up to four inputs. ${outputs > 8 ? 'Two memories do' : 'One memory does'} it all, and a change of the table needs no rewiring.`;
}

/** What is known of how short it is, and what is not. */
function shortness(sum: SumOfProducts, form: OutputForm): string {
  if (sum.products.length === 0 || sum.products.every((p) => p.care === 0)) return 'It depends on no input.';
  if (hasXor(form))
    return `With XOR it takes fewer gates than its ${many(sum.products.length, 'product')}; it gives the table in every row that is asked. A circuit of more levels may still be smaller.`;
  return `${shortSumSays(sum)} A circuit of more than two levels may be smaller.`;
}

function shortSumSays({ products, proven, literalsProven, atLeast }: SumOfProducts): string {
  if (proven) return `No sum of products has fewer products${literalsProven ? ', and none with as few has fewer letters' : ''}.`;
  return `A short sum of ${many(products.length, 'product')}. Any sum needs at least ${grouped(atLeast)}: that many rows of 1 cannot share a product. Whether fewer than ${grouped(products.length)} will do is not proven.`;
}
