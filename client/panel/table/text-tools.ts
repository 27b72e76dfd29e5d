/** The table to and from a spreadsheet: by the clipboard and as a file. */
import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { PlanWanted } from '../../../shared/plan.ts';
import { readCellBlock, readTableFile, tableOfWanted, writeTableText } from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';
import { LightElement } from '../../ui/light-element.ts';
import { offerFile } from '../../ui/offer-file.ts';
import { textIn } from '../../ui/opened-file.ts';
import type { Columns } from './columns.ts';
import { pinChoice } from './pins.ts';
import { takeText } from './take-text.ts';
import { wantEvent } from './want.ts';

/** What should be said of a text that was taken: as rows of this table, or as a table of its own. */
function remarksOn(wanted: PlanWanted, text: string): readonly string[] {
  if (readCellBlock(text)) return [];
  const table = tableOfWanted(wanted);
  const known = table.ok ? readTableFile(text, table.value) : table;
  const read = known.ok ? known : readTableFile(text);
  return read.ok ? read.value.remarks : [];
}

@customElement('text-tools')
export class TextTools extends LightElement {
  @property({ attribute: false }) model: BenchModel | undefined;
  @property({ attribute: false }) columns: Columns | undefined;
  @state() private said = '';
  @query('input[type=file]') private readonly file!: HTMLInputElement;

  private take(text: string) {
    const { model } = this;
    const wanted = model?.plan.wanted;
    if (!model || !wanted) return;
    const taken = takeText(wanted, text, { row: 0, output: wanted.outputs.length - 1 }, pinChoice(model));
    this.dispatchEvent(wantEvent(taken));
    this.said = taken.ok ? remarksOn(wanted, text).join(' ') : '';
  }

  private async paste() {
    try {
      this.take(await navigator.clipboard.readText());
    } catch {
      this.said = 'The browser does not let this page read the clipboard. Click a cell and paste with Ctrl+V.';
    }
  }

  private async copy() {
    const { columns } = this;
    if (!columns) return;
    await navigator.clipboard.writeText(writeTableText(columns.wanted, '\t'));
    this.said = 'Copied. Paste it into a spreadsheet.';
  }

  private save() {
    const { columns, model } = this;
    if (columns && model) offerFile(model.plan.title, 'csv', new Blob([writeTableText(columns.wanted)], { type: 'text/csv' }));
  }

  protected override render() {
    return html`<p class="table-tools"><span class="quiet">Spreadsheet</span>
      <button type="button" class="tool" @click=${() => void this.paste()}>Paste</button>
      <button type="button" class="tool" @click=${() => void this.copy()}>Copy</button>
      <button type="button" class="tool" @click=${() => this.file.click()}>Open CSV</button>
      <button type="button" class="tool" @click=${() => this.save()}>Save CSV</button>
      <input type="file" data-for="table" accept=".csv,.tsv,.txt,text/csv" hidden aria-label="Table from a file"
        @change=${async () => {
          const [file] = this.file.files ?? [];
          this.file.value = '';
          const text = file && (await textIn(file));
          if (text?.ok) this.take(text.value);
          else this.said = text?.failure.says ?? '';
        }} />
      ${this.said ? html`<span class="quiet" role="status">${this.said}</span>` : nothing}</p>`;
  }
}
