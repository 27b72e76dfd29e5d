/** The key list: every key and every action, printed from the catalogue. */
import { html } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import { LightElement } from '../ui/light-element.ts';
import { COMMANDS } from './catalogue.ts';
import { type Command, type Group, usage } from './command.ts';
import { keyName, setSingleKeys, singleKeys } from './keys.ts';

const GROUPS: readonly Group[] = ['Controls', 'Building', 'View', 'Panel', 'Plan'];

/** Keys that belong to what has the focus, not to the page. */
const OF_THE_FOCUS: ReadonlyArray<readonly [keys: string, means: string]> = [
  ['Tab', 'next item on the bench or the page'],
  ['Enter or Space', 'operate the focused switch, button or LED'],
  ['← ↑ → ↓', 'pan the bench; nudge the selection; change the panel tab'],
  ['Esc', 'cancel, deselect, close'],
];

const caps = (key: string) => html`${keyName(key).map((k) => html`<kbd>${k}</kbd>`)}`;

@customElement('key-list')
export class KeyList extends LightElement {
  @query('dialog') private readonly dialog!: HTMLDialogElement;
  @state() private single = singleKeys();

  show() {
    if (!this.dialog.open) this.dialog.showModal();
  }

  protected override render() {
    const keyed = COMMANDS.flatMap((c) => Object.entries(c.keys ?? {}));
    return html`<dialog class="key-list" aria-labelledby="key-list-head" @click=${(e: Event) => e.target === this.dialog && this.dialog.close()}>
      <div class="key-list-page">
        <header>
          <h2 id="key-list-head">Keys and commands</h2>
          <button type="button" class="plain" @click=${() => this.dialog.close()}>Close</button>
        </header>
        <div class="key-columns">
          <section>
            <h3 class="section">Keys</h3>
            <dl class="keys">
              ${keyed.map(([key, line]) => html`<div><dt>${caps(key)}</dt><dd>${line}</dd></div>`)}
              ${OF_THE_FOCUS.map(([keys, means]) => html`<div><dt><kbd>${keys}</kbd></dt><dd>${means}</dd></div>`)}
            </dl>
            <label class="single-keys"><input type="checkbox" .checked=${this.single} @change=${(e: Event) => {
              this.single = (e.target as HTMLInputElement).checked;
              setSingleKeys(this.single);
            }} /> single keys, without ${keyName('Mod')[0]}</label>
          </section>
          ${GROUPS.map((g) => this.group(g))}
        </div>
      </div>
    </dialog>`;
  }

  private group(group: Group) {
    const these = COMMANDS.filter((c) => c.group === group);
    return html`<section>
      <h3 class="section">${group}</h3>
      <ul>
        ${these.map((c) => this.action(c))}
      </ul>
    </section>`;
  }

  private action(c: Command) {
    return html`<li class="action"><span class="figures">${usage(c)}</span> <span class="quiet action-means">${c.means}</span></li>`;
  }
}
