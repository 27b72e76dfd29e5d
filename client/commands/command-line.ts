/** The command line: one field in which any action is typed by name, and under it what could come next. */
import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { LightElement } from '../ui/light-element.ts';
import { COMMANDS } from './catalogue.ts';
import { type CommandContext, usage } from './command.ts';
import { keyName } from './keys.ts';
import { type CommandChoice, choicesFor, missing, parseCommandLine, runLine } from './line.ts';

/** So many lines are kept, the last one first. */
const KEPT_LINES = 50;

@customElement('command-line')
export class CommandLine extends LightElement {
  @property({ attribute: false }) context: CommandContext | undefined;
  @state() private text = '';
  /** the choice that the arrow keys have come to; undefined: the line as it is typed */
  @state() private chosen: number | undefined;
  @state() private refusal = '';
  @state() private shown = false;
  @query('dialog') private readonly dialog!: HTMLDialogElement;
  @query('input') private readonly field!: HTMLInputElement;
  private readonly earlier: string[] = [];

  /** begun: what the line says already */
  show(begun = '') {
    [this.text, this.chosen, this.refusal, this.shown] = ['', undefined, '', true];
    if (!this.dialog.open) this.dialog.showModal();
    this.put(begun);
  }

  private put(text: string) {
    [this.text, this.chosen, this.refusal] = [text, undefined, ''];
    this.field.value = text;
    this.field.focus();
  }

  private take(choice: CommandChoice) {
    if (choice.whole) void this.run(choice.line);
    else this.put(`${choice.line} `);
  }

  private keys(e: KeyboardEvent, choices: readonly CommandChoice[]) {
    const step = { ArrowDown: 1, ArrowUp: -1 }[e.key];
    if (e.key === 'ArrowUp' && this.text === '' && this.earlier[0]) this.put(this.earlier[0]);
    else if (step !== undefined && choices.length > 0)
      this.chosen =
        this.chosen === undefined ? (step > 0 ? 0 : choices.length - 1) : (this.chosen + step + choices.length) % choices.length;
    else if (e.key === 'Tab' && !e.shiftKey && choices.length > 0) this.put(`${(choices[this.chosen ?? 0] as CommandChoice).line} `);
    else return;
    e.preventDefault();
  }

  /** Enter: the choice that the arrows came to; else the line as it is typed. A name without what it needs is completed; nothing else is guessed. */
  private submit(e: Event, choices: readonly CommandChoice[]) {
    e.preventDefault();
    const picked = this.chosen === undefined ? undefined : choices[this.chosen];
    const line = parseCommandLine(this.text, COMMANDS);
    if (picked) this.take(picked);
    else if (line && missing(line) !== undefined && line.words.length === 0) this.put(`${this.text.trim()} `);
    else void this.run(this.text);
  }

  private async run(text: string): Promise<void> {
    const { context } = this;
    if (!context || text.trim() === '') return;
    const answer = await runLine(text, COMMANDS, context);
    if (!answer.ok) {
      this.refusal = answer.failure.says;
      return;
    }
    this.earlier.unshift(text.trim());
    this.earlier.splice(KEPT_LINES);
    this.dialog.close();
    if (answer.value) this.dispatchEvent(new CustomEvent<string>('done-by-name', { detail: answer.value, bubbles: true }));
  }

  protected override updated() {
    this.querySelector('[role=option][aria-selected=true]')?.scrollIntoView({ block: 'nearest' });
  }

  protected override render() {
    const choices = this.shown && this.context ? choicesFor(this.text, COMMANDS, this.context) : [];
    const command = parseCommandLine(this.text, COMMANDS)?.command;
    return html`<dialog class="command-line" aria-label="Command line" @close=${() => {
      this.shown = false;
    }} @click=${(e: Event) => e.target === this.dialog && this.dialog.close()}>
      <form @submit=${(e: Event) => this.submit(e, choices)}>
        <span class="prompt" aria-hidden="true">›</span>
        <input
          role="combobox"
          aria-label="Command"
          aria-expanded=${choices.length > 0}
          aria-controls="command-choices"
          aria-autocomplete="list"
          aria-activedescendant=${this.chosen === undefined ? nothing : `command-choice-${this.chosen}`}
          aria-describedby="command-usage"
          autocomplete="off"
          autocapitalize="off"
          spellcheck="false"
          placeholder="set R1 to 4k7"
          @input=${() => {
            [this.text, this.chosen, this.refusal] = [this.field.value, undefined, ''];
          }}
          @keydown=${(e: KeyboardEvent) => this.keys(e, choices)}
        />
        <button type="submit" class="visually-hidden" tabindex="-1">Run</button>
      </form>
      <p id="command-usage" class=${this.refusal ? 'refused' : 'quiet'} aria-live="polite">${
        this.refusal ||
        (command ? `${usage(command)}: ${command.means}` : 'Type a command. Tab completes it, Enter runs it, "keys" lists all.')
      }</p>
      <ul id="command-choices" role="listbox" aria-label="Suggestions" ?hidden=${choices.length === 0}>
        ${choices.map(
          (c, i) => html`<li id="command-choice-${i}" role="option" aria-selected=${i === this.chosen} @click=${() => this.take(c)}>
            <span class="figures">${c.line}</span> <span class="quiet choice-means">${c.means}</span>${keysOf(c.line)}
          </li>`,
        )}
      </ul>
    </dialog>`;
  }
}

function keysOf(line: string) {
  for (const { keys } of COMMANDS)
    for (const [key, types] of Object.entries(keys ?? {})) if (types === line) return html` <kbd>${keyName(key).join(' ')}</kbd>`;
  return nothing;
}
