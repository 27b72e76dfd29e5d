/** The page *Findings*: what the checker has to say, the worst first. */
import { html, nothing } from 'lit';
import { customElement } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { SEVERITIES, SEVERITY_NAMES, type Severity } from '../../sim-core/index.ts';
import { benchStateSays } from '../state/bench-state-text.ts';
import { SessionElement } from '../state/session-element.ts';
import { fixButtons, viewSentence } from '../ui/sentence-view.ts';
import { severityMark } from '../ui/severity-mark.ts';
import type { SaidFinding } from '../worker/protocol.ts';
import { IdleCheck } from './idle-check.ts';
import { toLimits } from './limits-page.ts';

const NOTES: Readonly<Record<Severity, string>> = {
  'damage-risk': 'may damage a part',
  fault: 'does not work',
  marginal: 'works with typical parts only',
  suggestion: 'works, and could be better',
};

@customElement('findings-page')
export class FindingsPage extends SessionElement {
  protected override readonly hears = ['findings', 'settled', 'model', 'written'] as const;
  private readonly whole = new IdleCheck(this, () => (this.session?.readings?.supplies.some((s) => s.on) ? this.session.plan : undefined));

  constructor() {
    super();
    this.addController(this.whole);
  }

  /** Those of this moment, then what the check finds besides. */
  private get findings(): readonly SaidFinding[] {
    const now = this.session?.findings ?? [];
    const known = new Set(now.map((f) => f.key));
    return [...now, ...(this.whole.findings ?? []).filter((f) => !known.has(f.key))];
  }

  /** " (supply on, switches 01100)" */
  private state() {
    const { model, readings } = this.session ?? {};
    return model && readings ? ` (${benchStateSays({ specimens: model.specimens, ...readings })})` : '';
  }

  protected override render() {
    const { findings } = this;
    if (findings.length === 0)
      return html`<h2 class="headline">No problems found${this.state()}.</h2>
        <p class="quiet">Checked: currents, levels, floating inputs, bus contention, writes, placement of parts, and with the supply on the rows of
        the truth table${this.whole.findings ? ', other settings of the switches and every button' : ''}.</p>${toLimits()}`;
    return html`<h2 class="headline">${findings.length === 1 ? 'One finding' : `${findings.length} findings`}</h2>
      ${SEVERITIES.map((severity) => {
        const these = findings.filter((f) => f.severity === severity);
        if (these.length === 0) return nothing;
        const head = SEVERITY_NAMES[severity];
        return html`<section class="severity" data-severity=${severity} aria-label=${head}>
          <h3>${severityMark(severity)}${head} <span class="quiet">${NOTES[severity]}</span></h3>
          <ul>
            ${repeat(
              these,
              (f) => f.key,
              (f) => html`<li>${viewSentence(f.says)}${fixButtons(f.fixes, (change) => this.session?.edit(change))}</li>`,
            )}
          </ul>
        </section>`;
      })}${toLimits()}`;
  }
}
