/** The build sheet: printable pages with all that a person needs beside the real board. Its lists are computed by the workshop from the plan that stands. */
import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Plan } from '../../shared/plan.ts';
import {
  type BuildSheet,
  grouped,
  LED_STEPS,
  type MemoryCard,
  type Outcome,
  type SheetStage,
  STAGE_TITLES,
  siFormat,
} from '../../sim-core/index.ts';
import { dateOf, sayOutdated, sayOutdatedFirst, signedOf } from '../panel/build/proofs.ts';
import type { BenchModel } from '../state/bench-model.ts';
import type { Session } from '../state/session.ts';
import { LightElement } from '../ui/light-element.ts';
import { cardPages, type ErasedCard, erasedCard } from './card-pages.ts';
import { checksTable } from './checks-table.ts';
import { PaperChoice } from './paper.ts';
import { partsTable, stepsTable } from './sheet-tables.ts';
import { SheetWork } from './sheet-work.ts';
import { stageFigures } from './stage-figures.ts';
import { type TableForm, usualForm } from './table-pages.ts';
import { tableChoice, truthTable } from './truth-table.ts';

interface Content {
  readonly plan: Plan;
  readonly sheet: BuildSheet;
  /** by stage, drawn once */
  readonly figures: readonly unknown[];
  /** or why there are none */
  readonly cards: Outcome<readonly MemoryCard[]>;
  /** where nothing is left to be written on this bench */
  readonly erased?: ErasedCard;
}

@customElement('build-sheet')
export class BuildSheetPage extends LightElement {
  @property({ attribute: false }) session: Session | undefined;
  @property({ attribute: false }) picture: () => Promise<string | undefined> = async () => undefined;
  @state() private content: Content | undefined;
  @state() private drawing = '';
  @state() private refusal = '';
  @state() private form: TableForm = 'first';
  private readonly paper = new PaperChoice(this);
  private readonly work = new SheetWork(
    this,
    () => this.session,
    (plan) => this.compose(plan),
  );

  override disconnectedCallback() {
    super.disconnectedCallback();
    if (this.drawing) URL.revokeObjectURL(this.drawing);
  }

  private async compose(plan: Plan) {
    const svg = await this.picture();
    if (svg) this.drawing = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
    const sheet = await this.work.jobs.begin({ job: 'sheet', plan });
    const cards = await this.work.jobs.begin({ job: 'card', plan });
    if (!sheet || !cards) return;
    // what is printed goes to parts in a hand, and their memory is blank
    const erased = cards.ok && cards.value.every((c) => c.steps.length === 0) ? await erasedCard(this.work.jobs, plan) : undefined;
    if (!sheet.ok) this.refusal = sheet.failure.says;
    else
      this.content = {
        plan,
        sheet: sheet.value,
        figures: figuresOf(plan, sheet.value),
        cards,
        ...(erased?.ok ? { erased: erased.value } : {}),
      };
    if (plan.wanted) this.form = usualForm(plan.wanted);
    await this.updateComplete;
    this.querySelector('h1')?.focus();
  }

  protected override render() {
    const wanted = this.content?.plan.wanted;
    const choice =
      wanted &&
      tableChoice(wanted, this.form, (form) => {
        this.form = form;
      });
    return html`${this.paper.bar('#build', this.content !== undefined, choice ?? nothing)}
      <article class="pages">${this.content ? this.pages(this.content) : html`<h1 tabindex="-1">Build sheet</h1><p role="status">${this.refusal || 'Making the lists …'}</p>`}</article>`;
  }

  private pages(content: Content) {
    const { plan, sheet } = content;
    const { model } = this.session ?? {};
    if (!model) return nothing;
    return html`<header>
        <p class="over">Build sheet</p>
        <h1 tabindex="-1">${plan.title}</h1>
        ${plan.notes.map((n) => html`<p>${n}</p>`)}
      </header>
      ${this.drawing ? html`<figure><img src=${this.drawing} alt="The bench ${plan.title} as it is wired" /></figure>` : nothing}
      <section><h2>Before you begin</h2><ul class="cautions">${sheet.cautions.map((c) => html`<li>${c}</li>`)}</ul><p><b>Holes.</b> ${sheet.holes}</p></section>
      <section class="wide" tabindex="0" aria-label="Parts"><h2>Parts</h2>${partsTable(sheet.parts)}</section>
      ${sheet.stages.map((stage, i) => stageSection(stage, titleOf(stage, i), content.figures[i], sheet.plusWire))}
      ${imagesSection(sheet)}
      <section><h2>Programming card</h2>${cardSection(content, model)}</section>
      <section class="proof-lines"><h2>Proof</h2>${proofLines(plan)}</section>
      ${plan.wanted ? truthTable(plan.wanted, this.form) : nothing}`;
  }
}

function stageSection({ steps, checks }: SheetStage, title: string, figures: unknown, plusWire: BuildSheet['plusWire']) {
  return html`<section class="stage wide" tabindex="0" aria-label=${title}>
      ${figures}
      ${stepsTable(steps, title)}
      ${checks.length > 0 ? html`<h3>Checks</h3>${checksTable(checks, plusWire)}` : nothing}
    </section>`;
}

/** What is to be in the memories before they are fitted; where a card writes them by hand it stands beside it. */
const imagesSection = ({ images }: BuildSheet) =>
  images.length === 0
    ? nothing
    : html`<section><h2>${images.length === 1 ? 'Image of the memory' : 'Images of the memories'}</h2>
        ${images.map(
          ({ memory, file, bytes, checksums: { sum, crc16, crc32 }, says }) =>
            html`<p><b>${memory}</b>: <code>${file}</code>, ${grouped(bytes)} bytes; sum <code>${sum}</code>, CRC-16 <code>${crc16}</code>, CRC-32 <code>${crc32}</code>. ${says} Save the file on the Table page, under Bytes, as binary.</p>`,
        )}</section>`;

const titleOf = ({ stage }: SheetStage, i: number) => `${i + 1}. ${STAGE_TITLES[stage]}`;

const figuresOf = (plan: Plan, sheet: BuildSheet) => sheet.stages.map((s, i) => stageFigures(plan, sheet, s, titleOf(s, i)));

function cardSection({ cards, erased, plan }: Content, model: BenchModel) {
  if (!cards.ok) return html`<p>There is no card for this bench. ${cards.failure.says}</p>`;
  const withBytes = (all: readonly MemoryCard[]) => all.filter((c) => c.steps.length > 0);
  const pages = (all: readonly MemoryCard[], switches: Plan['switches']) =>
    cardPages(withBytes(all), switches, model, (memory) => html`<h3>${memory}</h3>`);
  if (withBytes(cards.value).length > 0) return pages(cards.value, plan.switches);
  if (!erased) return html`<p>Every byte of the table is in the memory.</p>`;
  return html`<p>On the simulated bench every byte is stored. This card is for an erased memory.</p>${pages(erased.cards, erased.switches)}`;
}

function proofLines(plan: Plan) {
  const { inputs = [], rows = [] } = plan.wanted ?? {};
  if (rows.length === 0) return html`<p>This bench has no truth table, so there is nothing to prove. Start one on the Table page.</p>`;
  const signed = signedOf(plan);
  if (!signed)
    return html`<p>This bench, with this wiring and these bytes, has not been proven and signed. The Build page proves it: all ${grouped(rows.length)} rows.</p>`;
  const { proof, holds } = signed;
  if (!holds) return html`<p><strong>${sayOutdatedFirst(signed)}</strong> ${sayOutdated(signed, plan)}</p>`;
  return html`<p>Proven on the simulated bench on ${dateOf(proof)}: all ${grouped(proof.rows)} rows right, 100 %. Gone through: every setting of the switches for
      ${inputs.map((i) => i.name).join(', ')}, one after the other, with the supply on; each LED's computed current compared with the table, lit from ${siFormat(LED_STEPS.lit, 'A')}, dark below ${siFormat(LED_STEPS.dim, 'A')}.</p>
    <p>Signed: ${proof.by || '______________________________'}</p>
    <p>Seen on the real board, all rows: date and name ______________________________</p>`;
}
