/** The page *Table*: wanted, stored and shown side by side; a row's number sets the switches to it. */
import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Glow } from '../core.ts';
import { Listen } from '../listen.ts';
import type { Session } from '../session.ts';
import type { Standing } from '../standing.ts';
import { rowNow, settingsFor, shownIn, storedFor } from './table-rows.ts';

const ROWS_DRAWN = 256;

@customElement('table-page')
export class TablePage extends LitElement {
  @property({ attribute: false }) session: Session | undefined;

  constructor() {
    super();
    new Listen(this, () => this.session, ['settled', 'standing', 'written', 'swept']);
  }

  protected override createRenderRoot() {
    return this;
  }

  /** what the last sweep was asked for */
  private sweptFor = '';

  /** The rows are gone through again whenever something that they depend on has changed: anything but the inputs' own switches. */
  protected override updated() {
    const { session } = this;
    const { standing, readings } = session ?? {};
    if (!session || !standing || !readings) return;
    const own = new Set([
      ...readings.supplies.map((s) => `${s.part}.0`),
      ...(session.swept?.inputs ?? []).map((i) => `${i.part}.${i.pole}`),
    ]);
    const others = Object.entries(readings.hands).flatMap(([part, poles]) =>
      poles.flatMap((closed, pole) => (closed ? `${part}.${pole}` : [])),
    );
    const now = JSON.stringify([others.filter((name) => !own.has(name)), session.memories, standing.plan.leads, standing.plan.parts]);
    if (now === this.sweptFor) return;
    this.sweptFor = now;
    session.sweep();
  }

  private goTo(row: number) {
    const { session } = this;
    if (!session?.swept) return;
    for (const s of settingsFor(session.swept, row)) {
      const now = session.readings?.hands[s.part]?.[s.pole] ?? false;
      if (now !== s.closed) session.act({ do: 'set', ...s });
    }
  }

  protected override render() {
    const { session } = this;
    const { standing, readings } = session ?? {};
    const wanted = standing?.plan.wanted;
    if (!session || !standing || !readings || !wanted) return nothing;
    const here = rowNow(standing, readings);
    const { swept } = session;
    const chip = readings.chips.find((c) => c.part === wanted.inputs[0]?.pin.split('.')[0]);
    const rows = wanted.rows.slice(0, ROWS_DRAWN);
    const stored = rows.map((_, row) => storedFor(standing, session.memories, chip, row));
    const right = rows.filter((w, row) => stored[row] === w).length;
    const width = wanted.outputs.length;
    const shownRight = swept && rows.filter((w, row) => isShown(w, swept.rows[row], swept.lamps, standing)).length;
    return html`<h2 class="headline">${tally(rows.length, right, shownRight)}</h2>
      <p class="quiet">${
        swept
          ? 'Choose a row to set the switches to it. Shown is what the lamps do there with the supply on and every other switch as it stands.'
          : 'Not every input of the table is set by a switch, so what the lamps show cannot be gone through.'
      }</p>
      <p class="quiet">Each figure is a lamp, from the right: ${wanted.outputs.map((o) => o.name).join(', ')}.</p>
      <div class="table-scroll" tabindex="0" role="group" aria-label="Truth table, scrolls">
      <table>
        <caption class="visually-hidden">Truth table: ${wanted.outputs.map((o) => o.name).join(', ')}, first is the rightmost figure</caption>
        <thead><tr><th scope="col">row</th><th scope="col">when</th><th scope="col">wanted</th><th scope="col">stored</th><th scope="col">shown</th></tr></thead>
        <tbody>
          ${rows.map((want, row) => {
            const when = wanted.inputs.filter((_, i) => (row >> i) & 1).map((l) => l.name);
            const glows = swept?.rows[row];
            const saw = swept && glows && shownIn(glows, swept.lamps, standing);
            return html`<tr class=${swept ? 'settable' : ''} aria-current=${row === here ? 'true' : nothing} @click=${() => this.goTo(row)}>
              <th scope="row">${
                swept ? html`<button type="button" class="row-go" aria-label="Set the switches to row ${row}">${row}</button>` : row
              }</th>
              <td class="when">${when.length === 0 ? 'none' : when.join(', ')}</td>
              <td>${bits(want, 0, width)}</td>
              <td>${stored[row] === undefined ? '' : bits(stored[row], 0, width, want)}</td>
              <td>${saw ? bits(saw.value, saw.unknown, width, want) : ''}</td>
            </tr>`;
          })}
        </tbody>
      </table></div>
      ${rows.length < wanted.rows.length ? html`<p class="quiet">The first ${ROWS_DRAWN} of ${wanted.rows.length} rows.</p>` : nothing}
      ${wanted.rules.length > 0 ? html`<h3 class="section">Rules</h3><ul class="rules">${wanted.rules.map((r) => html`<li>${r}</li>`)}</ul>` : nothing}`;
  }
}

/** Do the lamps show a row as wanted, for certain? */
function isShown(want: number, glows: readonly Glow[] | undefined, lamps: readonly string[], standing: Standing): boolean {
  const saw = glows && shownIn(glows, lamps, standing);
  return saw?.unknown === 0 && saw.value === want;
}

/** The page's first sentence; shown is undefined where the rows could not be gone through. */
function tally(rows: number, stored: number, shown: number | undefined): string {
  const all = (n: number) => (n === rows ? `All ${rows}` : `${n} of ${rows}`);
  if (shown === undefined) return `${all(stored)} rows are stored as wanted.`;
  if (shown === stored) return `${all(stored)} rows are stored and shown as wanted.`;
  return `${all(stored)} rows are stored as wanted, ${shown === 0 ? 'none is' : shown === 1 ? 'one is' : `${shown} are`} shown so.`;
}

/** Bits from the most significant; those that differ from what is wanted are marked, not by colour alone. */
function bits(value: number, unknown: number, width: number, wanted?: number) {
  const figures = Array.from({ length: width }, (_, k) => width - 1 - k).map((i) => {
    const figure = (unknown >> i) & 1 ? 'X' : String((value >> i) & 1);
    return wanted === undefined || figure === String((wanted >> i) & 1) ? figure : html`<b class="off">${figure}</b>`;
  });
  return html`<span class="bits">${figures}</span>`;
}
