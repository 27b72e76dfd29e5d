/** Building along beside the real bench: one thing to put down or to check on each screen, ticked off and kept, with the next holes picked out. */
import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Plan } from '../../shared/plan.ts';
import { type BuildSheet, type CheckLine, capitalised, checkLines, STAGE_TITLES, sayHow } from '../../sim-core/index.ts';
import type { Session } from '../state/session.ts';
import { LightElement } from '../ui/light-element.ts';
import './along.css';
import './along-check.ts';
import type { CheckAnswered } from './along-check.ts';
import { alongPictures } from './along-picture.ts';
import { AlongProgress, type AlongScreen, screensOf } from './along-progress.ts';
import { SheetWork } from './sheet-work.ts';

interface Content {
  readonly plan: Plan;
  readonly sheet: BuildSheet;
  readonly screens: readonly AlongScreen[];
  readonly progress: AlongProgress;
}

@customElement('build-along')
export class BuildAlong extends LightElement {
  @property({ attribute: false }) session: Session | undefined;
  @state() private content: Content | undefined;
  @state() private at = 0;
  @state() private refusal = '';
  private readonly work = new SheetWork(
    this,
    () => this.session,
    (plan) => this.compose(plan),
  );

  override connectedCallback() {
    super.connectedCallback();
    addEventListener('keydown', this.keys);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    removeEventListener('keydown', this.keys);
  }

  private async compose(plan: Plan) {
    const sheet = await this.work.jobs.begin({ job: 'sheet', plan });
    if (!sheet) return;
    if (!sheet.ok) {
      this.refusal = sheet.failure.says;
      return;
    }
    const screens = screensOf(sheet.value, (s) => checkLines(s.checks));
    const progress = new AlongProgress(plan.title, storage());
    this.content = { plan, sheet: sheet.value, screens, progress };
    this.go(progress.next(screens));
  }

  /** Arrows go back and on; what is typed into a field stays there. */
  private readonly keys = (e: KeyboardEvent) => {
    if (e.target instanceof HTMLInputElement || e.target instanceof HTMLSelectElement) return;
    if (e.key === 'ArrowLeft') this.go(this.at - 1);
    if (e.key === 'ArrowRight') this.go(this.at + 1);
  };

  private go(to: number) {
    const { content } = this;
    if (!content) return;
    this.at = Math.max(0, Math.min(content.screens.length, to));
    void this.updateComplete.then(() => {
      this.scrollTop = 0;
      this.querySelector('h1')?.focus();
    });
  }

  private tick(screen: AlongScreen) {
    this.content?.progress.set(screen, 'done');
    this.go(this.at + 1);
  }

  private answered(screen: AlongScreen, { good }: CheckAnswered) {
    if (good) return this.tick(screen);
    this.content?.progress.set(screen, 'wrong');
    this.requestUpdate();
  }

  protected override render() {
    const { content } = this;
    if (!content)
      return html`${this.bar()}<article><h1 tabindex="-1">Build along</h1><p role="status">${this.refusal || 'Making the steps …'}</p></article>`;
    const { screens, progress } = content;
    const screen = screens[this.at];
    return html`${this.bar()}
      <progress max=${screens.length} value=${screens.filter((s) => progress.of(s) === 'done').length} aria-label="Steps done"></progress>
      ${screen ? this.screen(content, screen) : this.end(content)}`;
  }

  private bar() {
    return html`<div class="along-bar"><a href="#build">Back to the bench</a>${
      this.content ? this.stagesList(this.content) : nothing
    }</div>`;
  }

  /** Each stage's first screen, to go to. */
  private stagesList({ screens, sheet, progress }: Content) {
    const first = (i: number) => screens.findIndex((s) => s.number === i + 1);
    const now = screens[this.at]?.number ?? 0;
    const left = (i: number) => screens.filter((s) => s.number === i + 1 && progress.of(s) !== 'done').length;
    return html`<label class="along-stages"><span class="visually-hidden">Stage</span>
      <select @change=${(e: Event) => this.go(Number((e.target as HTMLSelectElement).value))}>
        ${sheet.stages.map((s, i) => html`<option value=${first(i)} ?selected=${i + 1 === now}>${i + 1}. ${STAGE_TITLES[s.stage]}${left(i) === 0 ? ' ✓' : ''}</option>`)}
      </select></label>`;
  }

  private screen(content: Content, screen: AlongScreen) {
    const { plan, sheet, screens, progress } = content;
    const before = screens.slice(0, this.at).flatMap((s) => (s.step ? [s.step.id] : []));
    const mark = progress.of(screen);
    const { stage, number, k, of } = screen;
    return html`<article>
        <p class="over">Stage ${number} of ${sheet.stages.length}, ${STAGE_TITLES[stage.stage]}: ${screen.line ? 'check' : 'step'} ${k} of ${of}${mark === 'done' ? html` <b>done</b>` : nothing}</p>
        <h1 tabindex="-1">${screen.step ? titleOf(screen) : capitalised(headOf(screen.line))}</h1>
        ${screen.step ? this.step(screen) : html`<p class="how">${sayHow(screen.line.by, sheet.plusWire?.id ?? '', sheet.plusWire?.hole ?? '')}</p><p>${screen.line.says}</p>`}
        <div class="along-pictures">${alongPictures(plan, sheet, screen, before)}</div>
        ${
          screen.line
            ? html`<along-check .plan=${plan} .line=${screen.line} .wrong=${mark === 'wrong'}
                @check-answered=${(e: CustomEvent<CheckAnswered>) => this.answered(screen, e.detail)}></along-check>`
            : nothing
        }
      </article>
      <nav class="along-turn" aria-label="Steps">
        <button type="button" ?disabled=${this.at === 0} @click=${() => this.go(this.at - 1)}>Back</button>
        ${
          screen.step
            ? html`<button type="button" class="act" @click=${() => this.tick(screen)}>${mark === 'done' ? 'Next' : 'Done, next'}</button>`
            : html`<button type="button" @click=${() => this.go(this.at + 1)}>${mark === 'done' ? 'Next' : 'Skip'}</button>`
        }
      </nav>`;
  }

  private step({ step, k }: AlongScreen) {
    if (!step) return nothing;
    const bands =
      step.put === 'part' && step.bands ? html`<p class="bands-line">Colour bands: <b>${step.bands.join(', ')}</b></p>` : nothing;
    return html`${k === 1 ? html`<p class="how">Supply off.</p>` : nothing}${bands}<p>${step.says}</p>`;
  }

  private end({ screens, progress }: Content) {
    const left = screens.filter((s) => progress.of(s) !== 'done');
    return html`<article><h1 tabindex="-1">${left.length === 0 ? 'Built, and every check is good' : `${left.length} of ${screens.length} left`}</h1>
        <p>${
          left.length === 0
            ? html`Set the inputs row by row and compare with the table, or write the memory by its <a href="#build/card">programming card</a>.`
            : html`<button type="button" class="act" @click=${() => this.go(progress.next(screens))}>Go to the first one that is left</button>`
        }</p></article>
      <nav class="along-turn" aria-label="Steps"><button type="button" @click=${() => this.go(this.at - 1)}>Back</button></nav>`;
  }
}

/** "Wire 5, orange: B2:j6 to a10", "R9, resistor 10 kΩ: B2:i3 to B2:-j2". */
function titleOf({ step }: AlongScreen): string {
  if (!step) return '';
  if (step.put === 'wire') return `Wire ${step.number}, ${step.colour}: ${step.places.join(' to ')}`;
  const what = [step.id, [step.title.toLowerCase(), step.value].filter(Boolean).join(' ')].join(', ');
  const [first] = step.places;
  const holes = step.places.length === 2 ? `: ${step.places.join(' to ')}` : first === undefined ? '' : `: pin 1 in ${first}`;
  return `${what}${step.label ? ` (${step.label})` : ''}${holes}`;
}

/** What to do: close a pole, put probes or a wire somewhere, look. */
const headOf = ({ first, places }: CheckLine): string => [first, places].filter(Boolean).join(', then ') || 'look';

/** Some browsers forbid it. */
function storage(): Storage | undefined {
  try {
    return localStorage;
  } catch {
    return undefined;
  }
}
