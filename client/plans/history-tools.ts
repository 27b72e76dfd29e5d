/** Undo and redo: two buttons that say what they would do. */
import { html } from 'lit';
import { customElement } from 'lit/decorators.js';
import { type Change, sayChange } from '../../sim-core/index.ts';
import { SessionElement } from '../state/session-element.ts';
import { icon } from '../theme/icon.ts';

const BACK = 'M7.5 4L4 7.5 7.5 11M4 7.5h7.5a4.25 4.25 0 0 1 0 8.5H8';
const ON = 'M12.5 4L16 7.5 12.5 11M16 7.5H8.5a4.25 4.25 0 0 0 0 8.5H12';

@customElement('history-tools')
export class HistoryTools extends SessionElement {
  protected override readonly hears = ['history'] as const;

  protected override render() {
    const { changes, at } = this.session?.history ?? { changes: [], at: 0 };
    return html`<div class="tools" role="group" aria-label="Undo and redo">
      ${this.tool('undo', 'Undo', BACK, changes[at - 1])}${this.tool('redo', 'Redo', ON, changes[at])}
    </div>`;
  }

  /** Not disabled but said to be so: the focus stays where it is when nothing is left. */
  private tool(step: 'undo' | 'redo', name: string, path: string, change: Change | undefined) {
    // a byte that was written meanwhile would stay written
    const but = step === 'undo' ? ' (switches go back by hand)' : '';
    const says = change ? `${name}: ${sayChange(change)}` : `${name}: nothing to ${step}${but}`;
    return html`<button type="button" aria-label=${says} title=${says} aria-disabled=${change ? 'false' : 'true'} @click=${() => change && this.dispatchEvent(new CustomEvent<string>('typed', { detail: step }))}>
      ${icon(path)}
    </button>`;
  }
}
