/** The rows of the table: only those in sight are built. A click selects cells; keys, the buttons below and what is pasted fill them. */
import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { type Cell, type CellChange, cellAt, exceptionBits, type Ruled } from '../../../sim-core/index.ts';
import { LightElement } from '../../ui/light-element.ts';
import { exceptionsOf } from './by-hand.ts';
import { type Columns, offShown, offStored } from './columns.ts';
import { type GridCell, gridKey } from './grid-keys.ts';
import { type Block, blockBetween, changesTo, isIn, markedText, outputAt } from './marked.ts';

/** Rows built above and below those in sight. */
const MORE = 6;
/** A browser's own pasting comes within this after the keys [ms]. */
const PASTES = 60;

export interface PastedCells {
  readonly text: string;
  readonly row: number;
  /** the output in the leftmost column of what is pasted */
  readonly output: number;
}

@customElement('row-grid')
export class RowGrid extends LightElement {
  @property({ attribute: false }) columns: Columns | undefined;
  /** what the rules say, if there are any: cells that a hand has filled in otherwise are marked */
  @property({ attribute: false }) ruled: Ruled | undefined;
  /** the row that the switches stand at */
  @property({ attribute: false }) here: number | undefined;
  @state() private first = 0;
  @state() private inSight = 24;
  @state() private at: GridCell = { row: 0, column: 0 };
  /** the other corner of what is marked */
  @state() private from: GridCell = { row: 0, column: 0 };
  @query('.grid-scroll') private readonly scroller!: HTMLElement;
  private readonly size = new ResizeObserver(() => this.look());
  /** Rows are built one by one as they come into sight; where all of them change at once, they take the elements of those before: row − base names the elements. */
  private drawn = { first: 0, base: 0 };
  private refocus = false;
  /** pixels */
  private height = 28;

  protected override firstUpdated() {
    this.size.observe(this.scroller);
    this.look();
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.size.disconnect();
  }

  private look() {
    const { scroller } = this;
    if (!scroller) return;
    this.height = Number.parseFloat(getComputedStyle(this).getPropertyValue('--row-px')) || 28;
    this.first = Math.max(0, Math.floor(scroller.scrollTop / this.height) - MORE);
    this.inSight = Math.ceil(scroller.clientHeight / this.height) + 2 * MORE;
    // a row that has the focus and is about to be taken away leaves it to the grid
    const focused = document.activeElement?.closest('tr');
    const row = focused && this.contains(focused) ? Number(focused.dataset.row) : Number.NaN;
    if (row < this.first || row >= this.first + this.inSight) scroller.focus({ preventScroll: true });
  }

  /** Brings a row into sight and the cursor to it. */
  show(row: number, column = this.at.column) {
    this.at = { row, column };
    this.from = this.at;
    this.reveal();
  }

  /** where the cursor is */
  get cursorRow(): number {
    return this.at.row;
  }

  private reveal() {
    const { scroller, height } = this;
    const head = scroller.querySelector('thead')?.clientHeight ?? 0;
    const top = this.at.row * height;
    const room = scroller.clientHeight - head;
    if (top < scroller.scrollTop) scroller.scrollTop = top;
    else if (top + height > scroller.scrollTop + room) scroller.scrollTop = top + height - room;
    this.look();
  }

  private get width(): number {
    return this.columns?.wanted.outputs.length ?? 0;
  }

  private readonly keys = (e: KeyboardEvent) => {
    const { columns } = this;
    if (!columns) return;
    const page = Math.max(1, this.inSight - 2 * MORE - 2);
    if (e.key.toLowerCase() === 'v' && (e.ctrlKey || e.metaKey)) this.askClipboard();
    const key = gridKey(e, this.at, { rows: columns.wanted.values.length, columns: this.width, page });
    if (key === undefined) return;
    e.preventDefault();
    if (key === 'go') this.go(this.at.row);
    else if ('to' in key) {
      this.at = key.to;
      if (!key.marks) this.from = key.to;
      this.refocus = true;
      this.reveal();
    } else this.fill(key.cell);
  };

  private get marked(): Block {
    return blockBetween(this.at, this.from);
  }

  /** All selected cells become this. */
  private fill(cell: Cell) {
    const changes = changesTo(this.marked, cell, this.width);
    this.dispatchEvent(new CustomEvent<readonly CellChange[]>('cells', { detail: changes, bubbles: true }));
  }

  private go(row: number) {
    this.dispatchEvent(new CustomEvent<number>('row', { detail: row, bubbles: true }));
  }

  private readonly press = (e: MouseEvent) => {
    const target = e.target instanceof Element ? e.target : undefined;
    const row = Number(target?.closest('tr')?.dataset.row ?? Number.NaN);
    if (Number.isNaN(row)) return;
    const column = target?.closest('td')?.dataset.column;
    if (column === undefined) {
      this.show(row, -1);
      this.go(row);
      return;
    }
    this.at = { row, column: Number(column) };
    this.refocus = true;
    if (!e.shiftKey) this.from = this.at;
  };

  private readonly copy = (e: ClipboardEvent) => {
    const { columns } = this;
    if (!columns || this.at.column < 0) return;
    e.clipboardData?.setData('text/plain', markedText(this.marked, columns.wanted));
    e.preventDefault();
  };

  private readonly paste = (e: ClipboardEvent) => {
    const text = e.clipboardData?.getData('text/plain');
    clearTimeout(this.askingClipboard);
    if (!text) return;
    e.preventDefault();
    this.take(text);
  };

  private take(text: string) {
    const { rows, columns } = this.marked;
    this.dispatchEvent(
      new CustomEvent<PastedCells>('pasted', { detail: { text, row: rows[0], output: outputAt(columns[0], this.width) }, bubbles: true }),
    );
  }

  /** Some browsers paste only where text can be typed: there the clipboard is asked. */
  private askClipboard() {
    clearTimeout(this.askingClipboard);
    this.askingClipboard = setTimeout(() => {
      navigator.clipboard?.readText().then(
        (text) => this.take(text),
        () => {},
      );
    }, PASTES);
  }
  private askingClipboard: ReturnType<typeof setTimeout> | undefined;

  protected override willUpdate() {
    const { first, base } = this.drawn;
    const far = Math.abs(this.first - first) >= this.inSight;
    this.drawn = { first: this.first, base: far ? base + this.first - first : base };
    const rows = this.columns?.wanted.values.length ?? 0;
    // rows and columns may have gone from under the cursor
    const inside = ({ row, column }: GridCell): GridCell => ({ row: Math.min(row, rows - 1), column: Math.min(column, this.width - 1) });
    if (rows > 0) [this.at, this.from] = [inside(this.at), inside(this.from)];
  }

  protected override updated() {
    if (!this.refocus) return;
    this.refocus = false;
    this.querySelector<HTMLElement>('[data-cursor]')?.focus({ preventScroll: true });
  }

  protected override render() {
    const { columns } = this;
    if (!columns) return nothing;
    const { wanted } = columns;
    const rows = wanted.values.length;
    const last = Math.min(rows, this.first + this.inSight);
    const first = Math.min(this.first, Math.max(0, rows - 1));
    const { marked } = this;
    const built = Array.from({ length: last - first }, (_, k) => first + k);
    const reached = built.includes(this.at.row);
    const inputs = wanted.inputs.toReversed();
    const outputs = wanted.outputs.toReversed();
    const byHand = new Set(this.ruled ? exceptionsOf(wanted, this.ruled).map((d) => d.output) : []);
    return html`<div class="grid-scroll" tabindex=${reached ? -1 : 0} @scroll=${() => this.look()} @keydown=${this.keys} @copy=${this.copy} @paste=${this.paste}>
      <table role="grid" aria-label="Truth table" aria-multiselectable="true" aria-rowcount=${rows + 2} aria-colcount=${outputs.length + 4}>
        <thead role="rowgroup">
          <tr class="groups" role="row" aria-rowindex="1">
            <th role="columnheader" class="of-inputs" aria-colindex="2">inputs</th>
            <th role="columnheader" class="of-outputs" aria-colindex="3" aria-colspan=${outputs.length}>wanted</th>
          </tr>
          <tr class="names" role="row" aria-rowindex="2">
            <th role="columnheader">row</th>
            <th role="columnheader"><span class="heads" aria-label=${`inputs ${inputs.join(', ')}`} role="img">${inputs.map((n) => html`<span class="head">${n}</span>`)}</span></th>
            ${outputs.map((n, k) => html`<th role="columnheader" ?data-by-hand=${byHand.has(outputs.length - 1 - k)}><span class="head">${n}</span></th>`)}
            <th role="columnheader">stored</th>
            <th role="columnheader">shown</th>
          </tr>
        </thead>
        <tbody role="rowgroup" @click=${this.press} style="padding-block:${first * this.height}px ${(rows - last) * this.height}px">
          ${repeat(
            built,
            (row) => row - this.drawn.base,
            (row) => this.row(columns, row, marked),
          )}
        </tbody>
      </table>
    </div>
    ${this.setter(columns)}`;
  }

  /** What the selected cells become, for fingers and mice. A press leaves the focus in the grid. */
  private setter({ wanted }: Columns) {
    const { rows, columns } = this.marked;
    const count = (rows[1] - rows[0] + 1) * (columns[1] - columns[0] + 1);
    const none = columns[1] < 0 || this.width === 0;
    const now = none ? undefined : cellAt(wanted, this.at.row, outputAt(Math.max(0, this.at.column), this.width));
    const choice = (
      cell: Cell,
      sign: string,
      says: string,
    ) => html`<button type="button" aria-label=${says} title=${`${says} (key ${sign === '–' ? '-' : sign})`}
      aria-pressed=${count === 1 && now === cell} aria-disabled=${none} @pointerdown=${(e: Event) => e.preventDefault()}
      @click=${() => !none && this.fill(cell)}>${sign}</button>`;
    return html`<div class="cell-setter" role="group" aria-label="Set the selected cells">
      <span class="quiet">${none ? 'Select a wanted cell' : count === 1 ? 'Selected cell' : `${count} selected cells`}</span>
      ${choice(0, '0', 'Set to 0')}${choice(1, '1', 'Set to 1')}${choice('-', '–', "Set to don't care")}
    </div>`;
  }

  private row(columns: Columns, row: number, marked: Block) {
    const { wanted, stored, shown } = columns;
    const inputs = wanted.inputs;
    const when = inputs.filter((_, i) => (row >> i) & 1);
    const free = wanted.dontCare[row] ?? 0;
    const { ruled } = this;
    const exceptions = ruled ? exceptionBits(wanted, ruled, row) : 0;
    const [offS, offL] = [offStored(columns, row), shown ? offShown(wanted, shown, row) : 0];
    const cursor = (column: number) => this.at.row === row && this.at.column === column;
    return html`<tr role="row" data-row=${row} aria-rowindex=${row + 3} aria-current=${row === this.here ? 'true' : nothing} data-off=${offS | offL ? 'yes' : nothing}>
      <th role="rowheader" class="row-at"><button type="button" class="row-go" tabindex=${cursor(-1) ? 0 : -1} ?data-cursor=${cursor(-1)} aria-label="Set the switches to row ${row}">${row}</button></th>
      <td role="gridcell" class="given" aria-label=${when.length === 0 ? 'none' : when.toReversed().join(', ')}>${figures(row, 0, 0, 0, inputs.length)}</td>
      ${Array.from({ length: this.width }, (_, column) => {
        const cell = cellAt(wanted, row, outputAt(column, this.width));
        const here = cursor(column);
        const rules =
          ruled && (exceptions >> outputAt(column, this.width)) & 1
            ? said(cellAt(ruled.table, row, outputAt(column, this.width)))
            : undefined;
        const label = rules === undefined ? (cell === '-' ? "don't care" : nothing) : `${said(cell)}, set by hand; the rules give ${rules}`;
        return html`<td role="gridcell" class="want" data-column=${column} data-cell=${cell} tabindex=${here ? 0 : -1} ?data-cursor=${here} ?data-by-hand=${rules !== undefined}
          aria-selected=${isIn(marked, row, column)} aria-label=${label} title=${rules === undefined ? nothing : `Set by hand; the rules give ${rules}`}>${cell === '-' ? '–' : cell}</td>`;
      })}
      <td role="gridcell" class="bits">${stored ? figures(stored[row] ?? 0, 0, offS, free, this.width) : ''}</td>
      <td role="gridcell" class="bits">${shown ? figures(shown.value[row] ?? 0, shown.unknown[row] ?? 0, offL, free, this.width) : ''}</td>
    </tr>`;
  }
}

const said = (cell: Cell): string => (cell === '-' ? "don't care" : String(cell));

/** Bits from the most significant; those that differ from what is wanted are boxed, those that do not matter are faint. Alike ones in a run are one text. */
function figures(value: number, unknown: number, off: number, free: number, width: number) {
  const runs: { kind: 'plain' | 'free' | 'off'; text: string }[] = [];
  for (let i = width - 1; i >= 0; i--) {
    const figure = (unknown >> i) & 1 ? 'X' : String((value >> i) & 1);
    const kind = (off >> i) & 1 ? 'off' : (free >> i) & 1 ? 'free' : 'plain';
    const last = runs.at(-1);
    if (last?.kind === kind && kind !== 'off') last.text += figure;
    else runs.push({ kind, text: figure });
  }
  const [only] = runs;
  if (only?.kind === 'plain' && runs.length === 1) return html`<span class="figure-row">${only.text}</span>`;
  return html`<span class="figure-row">${runs.map(({ kind, text }) =>
    kind === 'off' ? html`<b class="off">${text}</b>` : kind === 'free' ? html`<i>${text}</i>` : text,
  )}</span>`;
}
