/** The help: what this is, what hands can do on the bench, and the ways on to the examples, the keys and the limits. */
import { html } from 'lit';
import { customElement, query } from 'lit/decorators.js';
import { LightElement } from '../ui/light-element.ts';

/** What is done with a mouse or a finger; keys are in their own list. */
const BY_HAND: ReadonlyArray<readonly [act: string, does: string]> = [
  ['Click a switch, press a button', 'operates it, as on a real bench'],
  ['Click an LED', 'says why it is lit, dim or dark'],
  ['Rest on a hole, a wire or a pin', 'shows its net and its voltage'],
  ['Drag from hole to hole', 'lays a wire'],
  ['Drag a part, or a wire by its end', 'moves it'],
  ['Right-click, or hold a finger', 'opens the menu of what is there'],
  ['Wheel or pinch; drag the empty bench', 'zooms; pans'],
];

/** Ways on, as lines that could be typed. */
const WAYS: ReadonlyArray<readonly [line: string, says: string]> = [
  ['examples', 'Examples and riddles'],
  ['first steps', 'First steps'],
  ['keys', 'Keys and commands'],
  ['command line', 'Type a command'],
  ['limits', 'What is computed, and what is not'],
];

@customElement('help-dialog')
export class HelpDialog extends LightElement {
  @query('dialog') private readonly dialog!: HTMLDialogElement;

  async show() {
    await this.updateComplete;
    if (!this.dialog.open) this.dialog.showModal();
  }

  private go(line: string) {
    this.dialog.close();
    this.dispatchEvent(new CustomEvent<string>('typed', { detail: line, bubbles: true }));
  }

  protected override render() {
    return html`<dialog class="help" aria-labelledby="help-head" @click=${(e: Event) => e.target === this.dialog && this.dialog.close()}>
      <div class="help-page">
        <header>
          <h2 id="help-head">Help</h2>
          <button type="button" class="plain" @click=${() => this.dialog.close()}>Close</button>
        </header>
        <p>This is a breadboard on which a memory does the work of logic: inputs choose an address, and the byte stored there drives the outputs. Every
          voltage and current is computed from the parts and wires as they are.</p>
        <ul class="help-ways">${WAYS.map(([line, says]) => html`<li><button type="button" class="act" @click=${() => this.go(line)}>${says}</button></li>`)}</ul>
        <h3 class="section">On the bench</h3>
        <dl class="help-hand">${BY_HAND.map(([act, does]) => html`<div><dt>${act}</dt><dd>${does}</dd></div>`)}</dl>
      </div>
    </dialog>`;
  }
}
