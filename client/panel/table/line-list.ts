/** The table's inputs and outputs: their names, pins, LEDs and order; added, moved and taken out. */
import { html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { PlanWanted } from '../../../shared/plan.ts';
import { addInput, addOutput, changeLine, done, failed, moveLine, removeLine } from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';
import { LightElement } from '../../ui/light-element.ts';
import { freeName, freePin, type PinChoice, pinChoice } from './pins.ts';
import { wantEvent } from './want.ts';

type Side = 'inputs' | 'outputs';
type Output = PlanWanted['outputs'][number];

@customElement('line-list')
export class LineList extends LightElement {
  @property({ attribute: false }) model: BenchModel | undefined;

  private ask(next: Parameters<typeof wantEvent>[0]) {
    this.dispatchEvent(wantEvent(next));
  }

  private add(wanted: PlanWanted, side: Side, choice: PinChoice) {
    const pin = freePin(side, wanted, choice);
    if (pin === undefined) {
      const [pins, memory] = side === 'inputs' ? ['address', 'a larger memory'] : ['data', 'one more memory'];
      const says = `All ${choice[side].length} ${pins} pins are in use. Place ${memory} on the bench first.`;
      this.ask(failed('table/does-not-fit', side, says));
      return;
    }
    const line = { name: freeName(side, wanted, pin), pin };
    this.ask(side === 'inputs' ? addInput(wanted, line) : addOutput(wanted, line));
  }

  protected override render() {
    const { model } = this;
    const wanted = model?.plan.wanted;
    if (!model || !wanted) return nothing;
    const choice = pinChoice(model);
    return html`<details class="fold-in">
      <summary>Inputs and outputs <span class="quiet">${wanted.inputs.length} and ${wanted.outputs.length}</span></summary>
      ${this.side(wanted, 'inputs', choice)} ${this.side(wanted, 'outputs', choice)}
      <p class="table-tools"><button type="button" class="plain" @click=${() => this.ask(done(undefined))}>Remove the whole table</button></p>
    </details>`;
  }

  private side(wanted: PlanWanted, side: Side, choice: PinChoice) {
    const one = side === 'inputs' ? 'input' : 'output';
    return html`<h3>${side === 'inputs' ? 'Inputs' : 'Outputs'} <span class="quiet">least significant first</span></h3>
      <ol class="lines">${wanted[side].map((line, i) => this.line(wanted, side, line, i, choice))}</ol>
      <button type="button" class="plain" @click=${() => this.add(wanted, side, choice)}>Add an ${one}</button>`;
  }

  private line(wanted: PlanWanted, side: Side, line: Output, i: number, choice: PinChoice) {
    const one = `${side === 'inputs' ? 'input' : 'output'} ${line.name}`;
    const last = wanted[side].length - 1;
    const change = (next: Output) => this.ask(changeLine(wanted, side, i, next));
    const pins = choice[side].includes(line.pin) ? choice[side] : [line.pin, ...choice[side]];
    return html`<li>
      <input class="line-name" aria-label="Name of ${one}" maxlength="40" .value=${line.name} @change=${(e: Event) => {
        if (!(e.target instanceof HTMLInputElement)) return;
        const name = e.target.value.trim();
        // a name that is refused is not the line's
        e.target.value = line.name;
        if (name !== line.name) change({ ...line, name });
      }} />
      <select aria-label="Pin of ${one}" @change=${(e: Event) => e.target instanceof HTMLSelectElement && change({ ...line, pin: e.target.value })}>
        ${pins.map((pin) => html`<option ?selected=${pin === line.pin}>${pin}</option>`)}
      </select>
      <span class="line-moves">
        <button type="button" class="tool" aria-label="Move ${one} up" ?disabled=${i === 0} @click=${() => this.ask(moveLine(wanted, side, i, i - 1))}>↑</button>
        <button type="button" class="tool" aria-label="Move ${one} down" ?disabled=${i === last} @click=${() => this.ask(moveLine(wanted, side, i, i + 1))}>↓</button>
        <button type="button" class="tool" aria-label="Remove ${one}" @click=${() => this.ask(removeLine(wanted, side, i))}>×</button>
      </span>
      ${side === 'outputs' ? this.led(line, one, change) : nothing}
    </li>`;
  }

  private led(line: Output, one: string, change: (next: Output) => void) {
    const leds = this.model?.leds ?? [];
    const { led: _, activeLow: __, ...bare } = line;
    const byName = leds.find((l) => l.name === line.name);
    return html`<span class="line-more">
      <select aria-label="LED of ${one}" @change=${(e: Event) => {
        if (!(e.target instanceof HTMLSelectElement)) return;
        const { value } = e.target;
        change({ ...bare, ...(line.activeLow ? { activeLow: true } : {}), ...(value ? { led: value } : {}) });
      }}>
        <option value="">${byName ? `LED of its name (${byName.led})` : 'no LED'}</option>
        ${leds.map((l) => html`<option value=${l.led} ?selected=${l.led === line.led}>${l.name === l.led ? l.led : `${l.led} ${l.name}`}</option>`)}
      </select>
      <label><input type="checkbox" .checked=${line.activeLow === true} @change=${(e: Event) => {
        if (!(e.target instanceof HTMLInputElement)) return;
        change({ ...bare, ...(line.led ? { led: line.led } : {}), ...(e.target.checked ? { activeLow: true } : {}) });
      }} /> active low</label>
    </span>`;
  }
}
