/** The build sheet: printable pages with all that a person needs beside the real board. Its lists are computed by the workshop from the plan that stands. */
import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Plan } from '../../shared/plan.ts';
import { cardList, sayEffort, sayMoves } from '../build/card-list.ts';
import { dateOf, type SignedProof, signedProof } from '../build/proofs.ts';
import type { BuildSheet, MemoryCard } from '../core.ts';
import type { Session } from '../session.ts';
import { Reckoning } from '../table/reckoning.ts';
import { checksTable } from './checks-table.ts';
import { partsTable } from './parts-table.ts';
import { truthTable } from './truth-table.ts';
import { wiringTables } from './wiring-tables.ts';

const PAPERS = { A4: 'A4 portrait', Letter: 'letter portrait' } as const;
type Paper = keyof typeof PAPERS;

interface Content {
  readonly plan: Plan;
  readonly sheet: BuildSheet;
  readonly cards: readonly MemoryCard[];
  readonly signed: SignedProof | undefined;
}

@customElement('build-sheet')
export class BuildSheetPage extends LitElement {
  @property({ attribute: false }) session: Session | undefined;
  @property({ attribute: false }) picture: () => Promise<string | undefined> = async () => undefined;
  @state() private content: Content | undefined;
  @state() private drawing = '';
  @state() private refusal = '';
  @state() private paper: Paper = 'A4';
  private readonly size = document.createElement('style');
  private readonly reckoning = new Reckoning();
  private off = () => {};

  protected override createRenderRoot() {
    return this;
  }

  override connectedCallback() {
    super.connectedCallback();
    document.head.append(this.size);
    this.choose(this.paper);
    const { session } = this;
    if (!session) return;
    // an address may lead here before any bench stands
    if (session.readings) void this.compose();
    else
      this.off = session.on('settled', () => {
        this.off();
        void this.compose();
      });
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.off();
    this.reckoning.close();
    this.size.remove();
    if (this.drawing) URL.revokeObjectURL(this.drawing);
  }

  private choose(paper: Paper) {
    this.paper = paper;
    this.size.textContent = `@page { size: ${PAPERS[paper]}; margin: 14mm 13mm 15mm;
      @bottom-right { content: 'page ' counter(page) ' of ' counter(pages); font: 8pt sans-serif; color: #444; } }`;
  }

  private async compose() {
    const plan = this.session?.plan;
    if (!plan) return;
    const svg = await this.picture();
    if (svg) this.drawing = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
    const sheet = await this.reckoning.begin({ job: 'sheet', plan });
    const cards = await this.reckoning.begin({ job: 'card', plan });
    const signed = await signedProof(plan);
    this.reckoning.close();
    if (!sheet) return;
    if (!sheet.ok) this.refusal = sheet.failure.says;
    else this.content = { plan, sheet: sheet.value, cards: cards?.ok ? cards.value.filter((c) => c.steps.length > 0) : [], signed };
    await this.updateComplete;
    this.querySelector('h1')?.focus();
  }

  protected override render() {
    return html`<div class="sheet-bar">
        <a href="#build">Back to the bench</a>
        <fieldset><legend class="visually-hidden">Paper</legend>
          ${(Object.keys(PAPERS) as Paper[]).map(
            (p) =>
              html`<label><input type="radio" name="paper" .checked=${p === this.paper} @change=${() => this.choose(p)} /> ${p}</label>`,
          )}
        </fieldset>
        <button type="button" class="act" ?disabled=${!this.content} @click=${() => print()}>Print</button>
      </div>
      <article class="pages">${this.content ? this.pages(this.content) : html`<h1 tabindex="-1">Build sheet</h1><p role="status">${this.refusal || 'The lists are being made…'}</p>`}</article>`;
  }

  private pages({ plan, sheet, cards, signed }: Content) {
    const { standing } = this.session ?? {};
    if (!standing) return nothing;
    return html`<header>
        <p class="over">Build sheet</p>
        <h1 tabindex="-1">${plan.title}</h1>
        ${plan.notes.map((n) => html`<p>${n}</p>`)}
      </header>
      ${this.drawing ? html`<figure><img src=${this.drawing} alt="The bench ${plan.title} as it is wired" /></figure>` : nothing}
      <section><h2>Before you begin</h2><ul class="cautions">${sheet.cautions.map((c) => html`<li>${c}</li>`)}</ul></section>
      <section class="wide" tabindex="0" aria-label="Parts"><h2>Parts</h2>${partsTable(sheet.parts)}</section>
      <section class="wide" tabindex="0" aria-label="Wiring, in building order"><h2>Wiring, in building order</h2>${wiringTables(sheet.wiring.filter((s) => s.section !== 'chips'))}</section>
      <section class="wide" tabindex="0" aria-label="Measure before you trust it"><h2>Measure before you trust it</h2>${checksTable(
        sheet.checks,
        sheet.wiring.find((s) => s.section === 'chips'),
      )}</section>
      ${
        cards.length > 0
          ? html`<section><h2>Programming card</h2>
              ${cards.map(
                (c) => html`<p>${c.memory}: ${sayEffort(c)} First ${sayMoves(c.toWrite, standing)}.</p>
                  ${cardList(c, standing, { done: () => false })}
                  <p>To read back: ${sayMoves(c.toRead, standing)}.</p>`,
              )}</section>`
          : nothing
      }
      ${plan.wanted ? html`<section><h2>Truth table</h2>${truthTable(plan.wanted)}</section>` : nothing}
      <section class="proof-lines"><h2>Proof</h2>${proofLines(plan, signed)}</section>`;
  }
}

function proofLines({ wanted }: Plan, signed: SignedProof | undefined) {
  if (!signed)
    return html`<p>This bench, as it is wired and stored here, has not been proven and signed. The page Build proves it: all ${wanted?.rows.length ?? 0} rows.</p>`;
  return html`<p>Proven on the simulated bench on ${dateOf(signed)}: all ${signed.rows} rows right, 100 %. Swept: every position of the switches for
      ${signed.inputs.join(', ')}, one after the other, with the supply on; each lamp's computed current compared with the table, lit from 1 mA, dark below 0.1 mA.</p>
    <p>Signed: ${signed.by || '______________________________'}</p>
    <p>Seen on the real board, all rows: date and name ______________________________</p>`;
}
