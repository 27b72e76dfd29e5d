/** The plan as text, edited in place: marks beside lines that cannot be so, and all of it taken over as one change. What is typed is never lost. */
import { html, nothing } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import type { Plan } from '../../../shared/plan.ts';
import { difference, writeBenchText } from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';
import type { Session } from '../../state/session.ts';
import { SessionElement } from '../../state/session-element.ts';
import { pointEvent } from '../../ui/sentence-view.ts';
import { alike, asWired, checkTyped, lineOfThing, refOfLine, same, type Typed } from './typed-plan.ts';

/** Typing is judged when it pauses so long [ms]. */
const PAUSE = 150;

interface Draft {
  readonly text: string;
  /** the plan that the text was written from */
  readonly base: Plan;
}
/** What was typed and not taken over, while other pages are read. */
const drafts = new WeakMap<Session, Draft>();

@customElement('text-form')
export class TextForm extends SessionElement {
  protected override readonly hears = ['model', 'settled', 'written'] as const;
  @state() private typed: Typed | undefined;
  @state() private dirty = false;
  /** the bench has changed under what is typed */
  @state() private moved = false;
  @query('textarea') private readonly field!: HTMLTextAreaElement | null;
  private base: Plan | undefined;
  private text = '';
  /** asked of the bench and not yet answered */
  private asked: { readonly plan: Plan; readonly text: string; readonly before: BenchModel | undefined } | undefined;
  private waiting: ReturnType<typeof setTimeout> | undefined;

  override disconnectedCallback() {
    super.disconnectedCallback();
    clearTimeout(this.waiting);
    if (this.session && this.base && this.dirty) drafts.set(this.session, { text: this.text, base: this.base });
  }

  private now(): Plan | undefined {
    return this.session?.plan;
  }

  /** The text follows the bench as long as nothing is typed. */
  protected override willUpdate() {
    const now = this.now();
    if (!now || !this.session) return;
    const draft = drafts.get(this.session);
    if (draft) {
      drafts.delete(this.session);
      [this.base, this.text, this.dirty] = [draft.base, draft.text, true];
      this.judge();
    }
    if (this.asked && this.asked.before !== this.session.model) {
      // taken over: what was typed stays as it was typed, where the bench stands just so
      const { plan, text } = this.asked;
      [this.dirty, this.moved, this.asked] = [false, false, undefined];
      if (same(asWired(plan), asWired(now))) [this.base, this.text] = [plan, text];
    }
    if (this.base && alike(this.base, now)) return;
    if (this.dirty) this.moved = true;
    else this.follow(now);
  }

  private follow(now: Plan) {
    [this.base, this.text, this.dirty, this.moved, this.typed] = [now, writeBenchText(now), false, false, undefined];
  }

  protected override updated() {
    if (this.field && this.field.value !== this.text) this.field.value = this.text;
    this.scrolled();
  }

  private input() {
    this.text = this.field?.value ?? '';
    this.dirty = true;
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => this.judge(), PAUSE);
  }

  private judge(): Typed {
    clearTimeout(this.waiting);
    this.typed = checkTyped(this.text);
    return this.typed;
  }

  private take() {
    const typed = this.judge();
    const from = this.moved ? this.now() : this.base;
    const [first] = typed.problems;
    if (first) this.goTo(first.line - 1);
    if (first || !from || !this.session) return;
    if (same(from, typed.plan)) {
      [this.dirty, this.moved] = [false, false];
      return;
    }
    this.asked = { plan: typed.plan, text: this.text, before: this.session.model };
    this.session.edit(difference(from, typed.plan));
  }

  private giveUp() {
    const now = this.now();
    if (now) this.follow(now);
  }

  /** Puts the caret on a line, from 0, and the line into sight. */
  goTo(line: number) {
    const { field } = this;
    if (!field || line < 0) return;
    const start = this.text
      .split('\n')
      .slice(0, line)
      .reduce((n, l) => n + l.length + 1, 0);
    field.focus();
    field.setSelectionRange(start, start + (this.text.slice(start).split('\n')[0]?.length ?? 0));
    field.scrollTop = Math.max(0, (line - 3) * this.lineHeight());
  }

  /** A thing touched on the bench: its line is chosen, unless somebody is typing. */
  showThing(id: string) {
    if (document.activeElement !== this.field) this.goTo(lineOfThing(this.text, id));
  }

  private lineHeight(): number {
    return this.field ? Number.parseFloat(getComputedStyle(this.field).lineHeight) : 20;
  }

  private scrolled() {
    const { field } = this;
    if (!field) return;
    for (const layer of this.querySelectorAll<HTMLElement>('.line-layer')) layer.style.transform = `translateY(${-field.scrollTop}px)`;
  }

  /** The line under the caret is picked out on the bench. */
  private caret() {
    const { field } = this;
    if (!field || !this.base) return;
    const line = this.text.slice(0, field.selectionStart).split('\n').length - 1;
    this.dispatchEvent(pointEvent({ ref: refOfLine(this.text.split('\n')[line] ?? '', this.base), keep: false }));
  }

  private keys(e: KeyboardEvent) {
    if (e.key !== 'Enter' || !(e.ctrlKey || e.metaKey)) return;
    e.preventDefault();
    this.take();
  }

  protected override render() {
    if (!this.base) return nothing;
    const problems = this.dirty ? (this.typed?.problems ?? []) : [];
    const lines = this.text.split('\n').length;
    const [first] = problems;
    return html`<p class="quiet">One item a line. Edit it, paste it, or keep it with other files. One undo reverts a whole edit.</p>
      <div class="text-editor" style="--digits:${String(lines).length}">
        <div class="line-room" aria-hidden="true"><div class="line-layer">
          <div class="line-numbers">${Array.from({ length: lines }, (_, i) => `${i + 1}\n`).join('')}</div>
          ${problems.map((p) => html`<div class="line-mark" style="--line:${p.line - 1}"></div>`)}
        </div></div>
        <textarea aria-label="Plan as text" aria-invalid=${problems.length > 0} aria-describedby="text-problems" wrap="off" spellcheck="false" autocomplete="off" autocapitalize="off"
          @input=${this.input} @scroll=${this.scrolled} @keydown=${this.keys} @keyup=${this.caret} @click=${this.caret} @blur=${() => this.dispatchEvent(pointEvent({ ref: undefined, keep: false }))}></textarea>
        <div class="line-room says" aria-hidden="true"><div class="line-layer">
          ${first ? html`<p class="line-says" style="--line:${first.line}">${first.says}</p>` : nothing}
        </div></div>
      </div>
      <div class="text-acts">
        <button type="button" class="act" ?disabled=${!this.dirty} @click=${this.take}>Apply</button>
        ${this.dirty ? html`<button type="button" class="plain" @click=${this.giveUp}>Show the present bench</button>` : nothing}
        <span class="quiet">${this.dirty ? 'Ctrl Enter applies it' : 'same as the bench'}</span>
      </div>
      <div id="text-problems" aria-live="polite">
        ${this.moved ? html`<p>The bench has changed since you began to type. Your text stays, and replaces the bench if you apply it.</p>` : nothing}
        <ul class="text-problems">
          ${problems.map((p) => html`<li><button type="button" class="plain" @click=${() => this.goTo(p.line - 1)}>Line ${p.line}</button>: ${p.says}</li>`)}
        </ul>
      </div>`;
  }
}
