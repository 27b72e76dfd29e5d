/** The form that makes a bench of a table: a few choices, each with what it leads to, and one button. */

import { html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { sameValue } from '../../../shared/same-value.ts';
import {
  type Arrangement,
  arrangementsFor,
  CHOICE_SAYS,
  type Choices,
  grouped,
  type MemoryChoice,
  memoryChoices,
  sayBrightness,
} from '../../../sim-core/index.ts';
import { SessionElement } from '../../state/session-element.ts';
import { JobClient } from '../../worker/job-client.ts';
import { type OfferedTable, OWN, offeredTables } from './offered-tables.ts';
import { COLOURS, coloured, type LedChoices, MILLIAMPS, singleOutputs } from './single-outputs.ts';

/** A bench to be opened as a new document. */
export type OpenPlan = CustomEvent<{ readonly text: string; readonly next: string }>;

const STANDS: Readonly<Record<Arrangement, string>> = { row: 'in a row', cell: 'as a braille cell, 2 by 3', ring: 'in a ring' };

/** What a table begins with that has no bench to tell it. */
const UNTOLD = { memory: '', show: 'leds', buffered: true } as const;

interface Chosen extends LedChoices {
  readonly memory: string;
  readonly byHand: boolean;
}

const chosenIn = (e: Event): string => (e.target as HTMLSelectElement).value;

@customElement('plan-form')
export class PlanForm extends SessionElement {
  protected override readonly hears = ['model'] as const;
  @state() private from = '';
  @state() private chosen: Chosen = { ...UNTOLD, byHand: true, milliamps: 5, colour: 'alternating' };
  @state() private low: ReadonlySet<string> | undefined;
  @state() private stands: Arrangement | undefined;
  /** what single outputs have, by name */
  @state() private own: NonNullable<Choices['own']> = {};
  @state() private busy = false;
  @state() private refusal = '';
  private readonly jobs = new JobClient();

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.jobs.close();
  }

  private async build(chosen: OfferedTable, memory: string) {
    this.busy = true;
    this.refusal = '';
    const title = chosen.id === OWN ? `${this.session?.model?.plan.title ?? 'Bench'}, built` : chosen.title;
    const answer = await this.jobs.begin({
      job: 'build',
      table: chosen.table,
      choices: {
        title: title.slice(0, 120),
        memory,
        byHand: this.chosen.byHand,
        show: this.chosen.show,
        arrangement: this.arrangementFor(chosen),
        buffered: this.chosen.buffered,
        amps: this.chosen.milliamps / 1000,
        activeLow: this.chosen.show === 'loads' ? [] : [...(this.low ?? chosen.activeLow)],
        own: this.own,
        ...(this.chosen.colour === 'alternating' ? {} : { colour: this.chosen.colour }),
        ...chosen.rules,
      },
    });
    this.busy = false;
    if (!answer) return;
    if (!answer.ok) {
      this.refusal = answer.failure.says;
      return;
    }
    const detail = { text: JSON.stringify(answer.value), next: this.chosen.byHand ? '#build/card' : '#build/proof' };
    this.dispatchEvent(new CustomEvent('open-plan', { detail, bubbles: true, composed: true }));
  }

  /** Of a table whose bench stands, the form begins with what that bench has. */
  private beginWith({ id, has = {} }: OfferedTable) {
    if (sameValue([id, has], this.begunWith)) return;
    this.begunWith = [id, has];
    const { memory, show, buffered } = has;
    this.chosen = {
      ...this.chosen,
      ...(memory === undefined ? {} : { memory }),
      ...(show === undefined ? {} : { show, ...(show === 'loads' ? { byHand: false } : {}) }),
      ...(buffered === undefined ? {} : { buffered }),
    };
  }
  private begunWith: unknown;

  private offers(): { readonly all: readonly OfferedTable[]; readonly offer: OfferedTable | undefined } {
    const all = offeredTables(this.session?.model?.plan);
    return { all, offer: all.find((o) => o.id === this.from) ?? all[0] };
  }

  protected override willUpdate() {
    const { offer } = this.offers();
    if (offer) this.beginWith(offer);
  }

  protected override render() {
    const { all, offer } = this.offers();
    if (!offer) return nothing;
    const { inputs, outputs } = offer.table;
    const memories = memoryChoices({ inputs, byHand: this.chosen.byHand });
    const able = memories.filter((m) => m.refusal === undefined);
    const memory = able.find((m) => m.kind === this.chosen.memory) ?? able[0];
    return html`<form class="plan-form" @submit=${(e: Event) => {
      e.preventDefault();
      if (memory && !this.busy) void this.build(offer, memory.kind);
    }}>
      ${this.tableChoice(all, offer)}
      ${this.either('How the memory is written', 'hand', [
        ['by hand', CHOICE_SAYS.byHand, this.chosen.byHand, () => this.set({ byHand: true })],
        ['loaded', CHOICE_SAYS.loaded, !this.chosen.byHand, () => this.set({ byHand: false })],
      ])}
      ${this.memoryChoice(memories, memory, offer)}
      ${this.showing(offer)}
      ${singleOutputs({
        outputs,
        memory: memory?.kind,
        chosen: this.chosen,
        own: this.own,
        low: this.low ?? new Set(offer.activeLow),
        give: (own) => {
          this.own = own;
        },
        turn: (low) => {
          this.low = low;
        },
      })}
      <p class="acts"><button type="submit" class="act" ?disabled=${this.busy || !memory}>${this.busy ? 'Building …' : 'Build the bench'}</button></p>
      <p class="quiet">It opens as a new bench. This one stays under Recent benches.</p>
      <p class="form-refusal" role="alert">${this.refusal}</p>
    </form>`;
  }

  private tableChoice(all: readonly OfferedTable[], offer: OfferedTable) {
    const { inputs, outputs } = offer.table;
    return html`<label class="choice"><span>Table</span>
        <select name="table" .value=${offer.id} @change=${(e: Event) => this.choose(chosenIn(e))}>${all.map((o) => html`<option value=${o.id} ?selected=${o === offer}>${o.title}</option>`)}</select>
        <small>${inputs.length} inputs, ${outputs.length} outputs, ${grouped(2 ** inputs.length)} rows. ${offer.says}</small>
      </label>`;
  }

  private memoryChoice(memories: readonly MemoryChoice[], memory: MemoryChoice | undefined, { table }: OfferedTable) {
    return html`<label class="choice"><span>Memory</span>
        <select name="memory" @change=${(e: Event) => this.set({ memory: chosenIn(e) })}>
          ${memories.map(
            (m) => html`<option value=${m.kind} ?disabled=${m.refusal !== undefined} ?selected=${m === memory}>
              ${m.title}${m.refusal ? ` (no: ${m.refusal})` : ''}</option>`,
          )}
        </select>
        <small>${memory ? `${memory.addressPins} address pins; ${memory.addressPins - table.inputs.length} tied low.${table.outputs.length > 8 ? ' The outputs take two memories side by side.' : ''}` : 'No memory in Parts can do it that way.'}</small>
      </label>`;
  }

  /** What shows the outputs: its kind, how it stands, what drives it, its current and its colour. */
  private showing(offer: OfferedTable) {
    const { show, buffered, milliamps, colour } = this.chosen;
    return html`${this.either('Outputs are shown by', 'show', [
      ['LEDs', CHOICE_SAYS.leds, show === 'leds', () => this.set({ show: 'leds' })],
      ['7-segment display', CHOICE_SAYS.digit, show === 'digit', () => this.set({ show: 'digit' })],
      ['LED bar graph', CHOICE_SAYS.bar, show === 'bar', () => this.set({ show: 'bar' })],
      ['loads', CHOICE_SAYS.loads, show === 'loads', () => this.set({ show: 'loads', byHand: false })],
    ])}
      ${this.arranging(offer)}
      ${
        show === 'loads'
          ? nothing
          : this.either('Driven by', 'drive', [
              ['a buffer', CHOICE_SAYS.buffered, buffered, () => this.set({ buffered: true })],
              ['the memory itself', CHOICE_SAYS.straight, !buffered, () => this.set({ buffered: false })],
            ])
      }
      <label class="choice"><span>Current in an LED</span>
        <select name="amps" @change=${(e: Event) => this.set({ milliamps: Number(chosenIn(e)) })}>
          ${MILLIAMPS.map((m) => html`<option value=${m} ?selected=${m === milliamps}>${m} mA</option>`)}
        </select>
        <small>${sayBrightness(milliamps / 1000, offer.table.outputs.length)}</small>
      </label>
      ${
        coloured(show)
          ? html`<label class="choice"><span>Colour of the LEDs</span>
              <select name="colour" @change=${(e: Event) => this.set({ colour: chosenIn(e) as (typeof COLOURS)[number] })}>
                ${COLOURS.map((c) => html`<option ?selected=${c === colour}>${c}</option>`)}
              </select>
              <small>Each colour has its own forward voltage; the resistor is computed for it.</small>
            </label>`
          : nothing
      }`;
  }

  /** Another table: what was chosen for outputs of the one before goes. */
  private choose(table: string) {
    this.from = table;
    this.low = undefined;
    this.stands = undefined;
    this.own = {};
    this.set(UNTOLD);
  }

  /** How the LEDs will stand: as chosen, as the table suggests, or in a row where there is no choice. */
  private arrangementFor({ table, arrangement }: OfferedTable): Arrangement {
    const able = this.chosen.show === 'leds' ? arrangementsFor(table.outputs.length) : [];
    return able.find((a) => a === (this.stands ?? arrangement)) ?? 'row';
  }

  private arranging(offer: OfferedTable) {
    const able = arrangementsFor(offer.table.outputs.length);
    if (this.chosen.show !== 'leds' || able.length < 2) return nothing;
    const now = this.arrangementFor(offer);
    return this.either(
      'Arrangement of the LEDs',
      'stands',
      able.map((a) => [
        STANDS[a],
        CHOICE_SAYS[a],
        a === now,
        () => {
          this.stands = a;
        },
      ]),
    );
  }

  private set(some: Partial<Chosen>) {
    this.chosen = { ...this.chosen, ...some };
    this.refusal = '';
  }

  private either(legend: string, name: string, choices: ReadonlyArray<readonly [string, string, boolean, () => void]>) {
    return html`<fieldset class="choice"><legend>${legend}</legend>
      ${choices.map(
        ([word, says, is, take]) => html`<label class="either"><input type="radio" name=${name} .checked=${is} @change=${take} />
          <span>${word}<small>${says}</small></span></label>`,
      )}
    </fieldset>`;
  }
}
