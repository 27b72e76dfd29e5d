/** Beside a mark on the bench: how bad it is, the sentence, and the cures as buttons. It stays while a hand is on the mark or on the card. */
import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { SEVERITY_NAMES } from '../../sim-core/index.ts';
import type { Session } from '../state/session.ts';
import { LightElement } from '../ui/light-element.ts';
import { fixButtons, viewSentence } from '../ui/sentence-view.ts';
import { severityMark } from '../ui/severity-mark.ts';
import type { AtMark } from './finding-marks.ts';

/** A hand may take so long from the mark to the card [ms]. */
const LINGERS = 350;
/** From the mark to the card, and from the card to the edge of the bench [px]. */
const [BESIDE, EDGE] = [10, 8];
/** Of several findings at one place the card tells so many; the page tells of all. */
const MOST = 3;

@customElement('finding-card')
export class FindingCard extends LightElement {
  @property({ attribute: false }) session: Session | undefined;
  @state() private shown: AtMark | undefined;
  private leaving: ReturnType<typeof setTimeout> | undefined;
  private off: (() => void) | undefined;

  override connectedCallback() {
    super.connectedCallback();
    this.addEventListener('pointerenter', () => clearTimeout(this.leaving));
    this.addEventListener('focusin', () => clearTimeout(this.leaving));
    this.addEventListener('pointerleave', () => this.leave());
    this.addEventListener('focusout', () => this.leave());
  }

  /** A hand or the focus is at a mark, or has left it. */
  at(mark: AtMark) {
    clearTimeout(this.leaving);
    this.off ??= this.session?.on('findings', (all) => this.renew(all.map((f) => f.key)));
    if (mark.does === 'left') this.leave();
    else this.shown = mark;
  }

  close() {
    clearTimeout(this.leaving);
    this.shown = undefined;
  }

  private leave() {
    clearTimeout(this.leaving);
    this.leaving = setTimeout(() => this.close(), LINGERS);
  }

  /** What has been fixed is not told any more. */
  private renew(keys: readonly string[]) {
    if (!this.shown) return;
    const findings = this.shown.findings.filter((f) => keys.includes(f.key));
    this.shown = findings.length > 0 ? { ...this.shown, findings } : undefined;
  }

  protected override updated() {
    const card = this.firstElementChild;
    const room = this.parentElement?.getBoundingClientRect();
    if (!(card instanceof HTMLElement) || !this.shown || !room) return;
    const mark = this.shown.mark.getBoundingClientRect();
    const { offsetWidth: width, offsetHeight: height } = card;
    const right = mark.right - room.left + BESIDE;
    const left = right + width + EDGE <= room.width ? right : mark.left - room.left - BESIDE - width;
    const top = mark.top - room.top + mark.height / 2 - height / 2;
    card.style.left = `${Math.max(EDGE, Math.min(left, room.width - width - EDGE))}px`;
    card.style.top = `${Math.max(EDGE, Math.min(top, room.height - height - EDGE))}px`;
  }

  protected override render() {
    if (!this.shown) return nothing;
    const { findings } = this.shown;
    return html`<div class="finding-card panel" role="group" aria-label="Finding">
      ${repeat(
        findings.slice(0, MOST),
        (f) => f.key,
        (f) => html`<section>
          <p class="how-bad">${severityMark(f.severity)}${SEVERITY_NAMES[f.severity]}</p>
          <p>${viewSentence(f.says)}</p>
          ${fixButtons(f.fixes, (change) => this.session?.edit(change))}
        </section>`,
      )}
      ${findings.length > MOST ? html`<p class="quiet">${findings.length - MOST} more under Findings.</p>` : nothing}
    </div>`;
  }
}
