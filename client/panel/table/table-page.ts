/** The page *Table*: wanted, stored and shown side by side, and all that fills, stores and explains them. */
import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { type CellChange, type Failure, grouped, settingCells, settingWanted, storeTable } from '../../../sim-core/index.ts';
import type { Session } from '../../state/session.ts';
import { SessionElement } from '../../state/session-element.ts';
import { go, hashOf } from '../../ui/route.ts';
import type { Shown } from '../../worker/jobs.ts';
import { byHandNote, makeRuling } from './by-hand.ts';
import './bytes-panel.ts';
import { type Columns, columnsOf, isAnyOff, nextDifference, rowNow, settingsFor, tally } from './columns.ts';
import { dependenceSays } from './dependence-says.ts';
import './gates-panel.ts';
import './line-list.ts';
import { JobClient } from '../../worker/job-client.ts';
import { pinChoice } from './pins.ts';
import type { PastedCells, RowGrid } from './row-grid.ts';
import './row-grid.ts';
import './rules-editor.ts';
import { isSweptFor, type SweptFor, sweptForOf } from './swept-for.ts';
import { takeText } from './take-text.ts';
import './text-tools.ts';
import type { Wanting } from './want.ts';

/** Rows are gone through again so long after something changed [ms]: hands that work on do not start it each time. */
const QUIET = 120;

@customElement('table-page')
export class TablePage extends SessionElement {
  protected override readonly hears = ['settled', 'model', 'written', 'pins'] as const;
  @property({ type: Boolean }) wide = false;
  /** the bytes of the memories are asked for */
  @property({ type: Boolean }) bytes = false;
  @state() private shown: Shown | undefined;
  @state() private noSweep: string | undefined;
  @state() private far: number | undefined;
  @state() private fault: Failure | undefined;
  @query('row-grid') private readonly grid!: RowGrid | null;
  private readonly sweeper = new JobClient((part) => {
    this.far = part;
  });
  private readonly rules = makeRuling(() => this.requestUpdate());
  private sweptFor: SweptFor | undefined;
  private due: ReturnType<typeof setTimeout> | undefined;
  private kept: { key: readonly unknown[]; columns: Columns | undefined } = { key: [], columns: undefined };

  override disconnectedCallback() {
    super.disconnectedCallback();
    clearTimeout(this.due);
    this.sweeper.close();
    this.rules.close();
    this.sweptFor = undefined;
  }

  /** The rows are gone through again whenever something that they depend on has changed. */
  protected override updated() {
    const { session } = this;
    const { model, readings } = session ?? {};
    if (!session || !model?.plan.wanted || !readings) return;
    const now = sweptForOf({ ...model.plan, memories: session.memories }, readings);
    if (this.sweptFor && isSweptFor(this.sweptFor, now, this.shown?.inputs ?? [])) return;
    this.sweptFor = now;
    clearTimeout(this.due);
    this.due = setTimeout(() => void this.sweep(), QUIET);
  }

  private async sweep() {
    const plan = this.session?.plan;
    if (!plan?.wanted) return;
    this.far = 0;
    const found = await this.sweeper.begin({ job: 'shown', plan });
    // ended for the sake of another one
    if (!found && this.sweeper.busy) return;
    this.far = undefined;
    this.shown = found?.ok ? found.value : undefined;
    this.noSweep = found ? (found.ok ? undefined : found.failure.says) : 'Stopped before all rows were gone through.';
  }

  private goTo(row: number) {
    const { session, shown } = this;
    if (!session || !shown) return;
    for (const s of settingsFor(shown, row)) {
      const now = session.readings?.switches[s.part]?.[s.pole] ?? false;
      if (now !== s.closed) session.act({ do: 'set', ...s });
    }
  }

  private want(next: Wanting) {
    this.fault = next.ok ? undefined : next.failure;
    const before = this.session?.model?.plan.wanted;
    if (next.ok && next.value !== before) this.session?.edit(settingWanted(before, next.value));
  }

  /** All bytes at once, as a programmer would. */
  private store() {
    const plan = this.session?.plan;
    const change = plan && storeTable(plan, this.session?.pins ?? []);
    this.fault = change?.ok === false ? change.failure : undefined;
    if (change?.ok) this.session?.edit(change.value);
  }

  private get columns(): Columns | undefined {
    const { session, shown } = this;
    if (!session?.model) return undefined;
    const key = [session.model.plan.wanted, session.memories, session.pins, shown];
    if (key.some((k, i) => k !== this.kept.key[i]) || this.kept.key.length === 0)
      this.kept = { key, columns: columnsOf(session.model.plan, session.memories, session.pins, shown) };
    return this.kept.columns;
  }

  private async start() {
    const plan = this.session?.plan;
    if (!plan) return;
    const begun = await this.sweeper.begin({ job: 'start', plan });
    if (begun) this.want(begun);
  }

  protected override render() {
    const { session } = this;
    const { model, readings } = session ?? {};
    if (!session || !model || !readings) return nothing;
    const { wanted } = model.plan;
    const columns = this.columns;
    const hasMemory = model.specimens.some((s) => s.word);
    if (!wanted || !columns) return this.noTable(session, hasMemory);
    const here = rowNow(model, readings);
    const differs = isAnyOff(columns);
    const ruled = this.rules.ruling(wanted);
    return html`<div class="table-page ${wanted.outputs.length > 9 ? 'many' : ''}" @want=${(e: CustomEvent<Wanting>) => this.want(e.detail)} @row=${(e: CustomEvent<number>) => this.goTo(e.detail)}>
      ${this.faultNote()}
      <div class="table-main"
        @cells=${(e: CustomEvent<readonly CellChange[]>) => {
          this.fault = undefined;
          session.edit(settingCells(wanted, e.detail));
        }}
        @pasted=${(e: CustomEvent<PastedCells>) => this.want(takeText(wanted, e.detail.text, e.detail, pinChoice(model)))}>
        <h2 class="headline">${tally(columns, readings.supplies)}</h2>
        ${this.sweepNote(columns)}
        <p class="table-tools">
          <button type="button" class="tool widen" aria-pressed=${this.wide} @click=${() => go({ page: 'table', ...(this.wide ? {} : { about: 'wide' }) })}>
            ${this.wide ? 'Beside the bench' : 'Wide'}
          </button>
          ${session.pins.length > 0 && columns.storedRight < columns.wanted.values.length ? html`<button type="button" class="act" @click=${() => this.store()}>Store it in ${session.pins.map((p) => p.memory).join(' and ')}</button>` : nothing}
          ${differs ? html`<button type="button" class="tool" @click=${() => this.toNext(columns, here)}>Next difference</button>` : nothing}
        </p>
        ${
          ruled
            ? byHandNote(
                columns.wanted,
                ruled,
                (row, output) => this.grid?.show(row, wanted.outputs.length - 1 - output),
                (cells) => session.edit(settingCells(wanted, cells)),
              )
            : nothing
        }
        <row-grid .columns=${columns} .ruled=${ruled} .here=${here} style="--bits-in:${wanted.inputs.length};--bits-out:${wanted.outputs.length};--digits:${String(wanted.rows.length - 1).length};--rows:${Math.min(wanted.rows.length, 40)}"></row-grid>
        <p class="quiet legend">A row's number sets the switches. Select wanted cells, then type 0, 1 or – (don't care). Underlined: not as wanted. X: undefined.</p>
        <text-tools .model=${model} .columns=${columns}></text-tools>
        ${dependenceSays(columns.wanted).map((says) => html`<p class="quiet">${says}</p>`)}
      </div>
      <div class="table-side">
        <rules-editor .wanted=${wanted} .model=${model}></rules-editor>
        <line-list .model=${model}></line-list>
        <bytes-panel .session=${session} ?asked=${this.bytes}></bytes-panel>
        <gates-panel .columns=${columns} .model=${model}></gates-panel>
        ${wanted.rules.length > 0 ? html`<details class="fold-in"><summary>In words</summary><ul class="rules">${wanted.rules.map((r) => html`<li>${r}</li>`)}</ul></details>` : nothing}
      </div>
    </div>`;
  }

  private noTable(session: Session, hasMemory: boolean) {
    return html`<h2 class="headline">This bench has no truth table yet.</h2>
        <p class="quiet">${
          hasMemory
            ? "It says what outputs the inputs must give. It starts with the switches that set a memory's address pins as inputs, and its data pins as outputs; names and number can be changed."
            : html`It says what outputs the inputs must give. It starts with three inputs and one output; names and number can be changed. The page
                <a class="plain" href=${hashOf({ page: 'build' })}>Build</a> builds the bench from it.`
        }</p>
        ${this.faultNote()}
        <button type="button" class="act start" @click=${() => void this.start()}>Start a table</button>
        ${hasMemory ? html`<bytes-panel .session=${session} ?asked=${this.bytes}></bytes-panel>` : nothing}`;
  }

  private toNext(columns: Columns, here: number | undefined) {
    const row = nextDifference(columns, this.grid?.cursorRow ?? here ?? -1);
    if (row !== undefined) this.grid?.show(row);
  }

  private sweepNote({ wanted }: Columns) {
    if (this.far !== undefined && wanted.values.length > 256)
      return html`<p class="quiet progress"><progress aria-label="Rows gone through" max="1" .value=${this.far}></progress>
        ${grouped(Math.round(this.far * wanted.values.length))} of ${grouped(wanted.values.length)} rows gone through
        <button type="button" class="plain" @click=${() => this.sweeper.end()}>Stop</button></p>`;
    if (!this.session?.model?.specimens.some((s) => s.word))
      return html`<p class="quiet">Once the rows are as wanted, the page <a class="plain" href=${hashOf({ page: 'build' })}>Build</a> builds the bench from them.</p>`;
    if (this.noSweep !== undefined)
      return html`<p class="quiet">What the LEDs show is unknown: ${this.noSweep}
        <button type="button" class="plain" @click=${() => void this.sweep()}>Go through the rows</button></p>`;
    return nothing;
  }

  private faultNote() {
    const { fault } = this;
    if (!fault) return nothing;
    return html`<p class="fault said" role="alert">${fault.says}
      <button type="button" class="plain" @click=${() => {
        this.fault = undefined;
      }}>Close</button></p>`;
  }
}
