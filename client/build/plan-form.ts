/** The form that makes a bench of a table: a few choices, each with what it leads to, and one button. */
import { html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { DEMO_TABLES } from '../../shared/demos/tables/catalogue.ts';
import {
  type Arrangement,
  arrangementsFor,
  CHOICE_SAYS,
  type Choices,
  LAMP_STEPS,
  limitsOf,
  memoryChoices,
  sayBrightness,
  siFormat,
} from '../core.ts';
import { Listen } from '../listen.ts';
import type { Session } from '../session.ts';
import { Reckoning } from '../table/reckoning.ts';
import type { TableSource } from '../worker/jobs.ts';

interface Offered {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  readonly table: TableSource;
  readonly activeLow: readonly string[];
  readonly arrangement: Arrangement;
  readonly rules: Pick<Choices, 'rules' | 'expressions'>;
}

/** A bench to be opened as a new document. */
export type OpenPlan = CustomEvent<{ readonly text: string; readonly next: string }>;

const MILLIAMPS = [0.5, 1, 2, 5, 8, 10, 15];
const SINGLE = ['red', 'amber', 'green', 'blue', 'white'] as const;
const COLOURS = ['alternating', ...SINGLE] as const;
type LampColour = (typeof SINGLE)[number];
const coloured = (show: Choices['show']): boolean => show === 'lamps' || show === 'loads';
const amps = (milliamps: number | undefined): number | undefined => (milliamps === undefined ? undefined : milliamps / 1000);
const STANDS: Readonly<Record<Arrangement, string>> = { row: 'in a row', cell: 'as a cell, two by three', ring: 'in a ring' };

interface Chosen extends Pick<Choices, 'memory' | 'byHand' | 'show' | 'buffered'> {
  readonly milliamps: number;
  readonly colour: (typeof COLOURS)[number];
}

@customElement('plan-form')
export class PlanForm extends LitElement {
  @property({ attribute: false }) session: Session | undefined;
  @state() private from = '';
  @state() private chosen: Chosen = { memory: '', byHand: true, show: 'lamps', buffered: true, milliamps: 5, colour: 'alternating' };
  @state() private low: ReadonlySet<string> | undefined;
  @state() private stands: Arrangement | undefined;
  /** what single outputs shall have, by name */
  @state() private own: NonNullable<Choices['own']> = {};
  @state() private busy = false;
  @state() private refusal = '';
  private readonly reckoning = new Reckoning();

  constructor() {
    super();
    new Listen(this, () => this.session, ['standing']);
  }

  protected override createRenderRoot() {
    return this;
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.reckoning.close();
  }

  private get offered(): readonly Offered[] {
    const plan = this.session?.standing?.plan;
    const wanted = plan?.wanted;
    const own: Offered[] =
      plan && wanted && wanted.outputs.length > 0
        ? [
            {
              id: 'own',
              title: `The table of this bench: ${plan.title}`,
              says: 'What the page Table asks for.',
              table: {
                inputs: wanted.inputs.map((i) => i.name),
                outputs: wanted.outputs.map((o) => o.name),
                rows: wanted.rows,
                ...(wanted.free ? { free: wanted.free } : {}),
              },
              arrangement: 'row',
              activeLow: wanted.outputs.filter((o) => o.activeLow).map((o) => o.name),
              rules: { rules: wanted.rules, ...(wanted.expressions ? { expressions: wanted.expressions } : {}) },
            },
          ]
        : [];
    return [
      ...own,
      ...DEMO_TABLES.map(({ id, title, story, inputs, outputs, rules, activeLow = [], arrangement = 'row' }) => ({
        id,
        title,
        says: story,
        table: { inputs, outputs, rules },
        activeLow,
        arrangement,
        rules: { expressions: rules.split('\n') },
      })),
    ];
  }

  private async build(chosen: Offered, memory: string) {
    this.busy = true;
    this.refusal = '';
    const title = chosen.id === 'own' ? `${this.session?.standing?.plan.title ?? 'Bench'}, built` : chosen.title;
    const answer = await this.reckoning.begin({
      job: 'build',
      table: chosen.table,
      choices: {
        title: title.slice(0, 120),
        memory,
        byHand: this.chosen.byHand,
        show: this.chosen.show,
        arrangement: this.standing(chosen),
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

  protected override render() {
    const all = this.offered;
    const offer = all.find((o) => o.id === this.from) ?? all[0];
    if (!offer) return nothing;
    const { inputs, outputs } = offer.table;
    const memories = memoryChoices({ inputs, byHand: this.chosen.byHand });
    const able = memories.filter((m) => m.refusal === undefined);
    const memory = able.find((m) => m.kind === this.chosen.memory) ?? able[0];
    return html`<form class="plan-form" @submit=${(e: Event) => {
      e.preventDefault();
      if (memory && !this.busy) void this.build(offer, memory.kind);
    }}>
      <label class="choice"><span>Table</span>
        <select name="table" .value=${offer.id} @change=${(e: Event) => {
          this.from = (e.target as HTMLSelectElement).value;
          this.low = undefined;
          this.stands = undefined;
          this.own = {};
          this.refusal = '';
        }}>${all.map((o) => html`<option value=${o.id} ?selected=${o === offer}>${o.title}</option>`)}</select>
        <small>${inputs.length} inputs, ${outputs.length} outputs, ${2 ** inputs.length} rows. ${offer.says}</small>
      </label>
      ${this.either('How the bytes come in', 'hand', [
        ['by hand', CHOICE_SAYS.byHand, this.chosen.byHand, () => this.set({ byHand: true })],
        ['loaded', CHOICE_SAYS.loaded, !this.chosen.byHand, () => this.set({ byHand: false })],
      ])}
      <label class="choice"><span>Memory</span>
        <select name="memory" @change=${(e: Event) => this.set({ memory: (e.target as HTMLSelectElement).value })}>
          ${memories.map(
            (m) => html`<option value=${m.kind} ?disabled=${m.refusal !== undefined} ?selected=${m === memory}>
              ${m.title}${m.refusal ? ` (no: ${m.refusal})` : ''}</option>`,
          )}
        </select>
        <small>${memory ? `${memory.addressPins} address pins; ${memory.addressPins - inputs.length} of them are tied low.${outputs.length > 8 ? ' The outputs take two of them side by side.' : ''}` : 'No memory here can do it that way.'}</small>
      </label>
      ${this.either('What shows the outputs', 'show', [
        ['lamps', CHOICE_SAYS.lamps, this.chosen.show === 'lamps', () => this.set({ show: 'lamps' })],
        ['digit', CHOICE_SAYS.digit, this.chosen.show === 'digit', () => this.set({ show: 'digit' })],
        ['bar', CHOICE_SAYS.bar, this.chosen.show === 'bar', () => this.set({ show: 'bar' })],
        ['loads', CHOICE_SAYS.loads, this.chosen.show === 'loads', () => this.set({ show: 'loads', byHand: false })],
      ])}
      ${this.arranging(offer)}
      ${
        this.chosen.show === 'loads'
          ? nothing
          : this.either('What drives them', 'drive', [
              ['a buffer', CHOICE_SAYS.buffered, this.chosen.buffered, () => this.set({ buffered: true })],
              ['the memory itself', CHOICE_SAYS.straight, !this.chosen.buffered, () => this.set({ buffered: false })],
            ])
      }
      <label class="choice"><span>Current in a lamp</span>
        <select name="amps" @change=${(e: Event) => this.set({ milliamps: Number((e.target as HTMLSelectElement).value) })}>
          ${MILLIAMPS.map((m) => html`<option value=${m} ?selected=${m === this.chosen.milliamps}>${m} mA</option>`)}
        </select>
        <small>${sayBrightness(this.chosen.milliamps / 1000, outputs.length, LAMP_STEPS.lit)}</small>
      </label>
      ${
        coloured(this.chosen.show)
          ? html`<label class="choice"><span>Colour of the lamps</span>
              <select name="colour" @change=${(e: Event) => this.set({ colour: (e.target as HTMLSelectElement).value as (typeof COLOURS)[number] })}>
                ${COLOURS.map((c) => html`<option ?selected=${c === this.chosen.colour}>${c}</option>`)}
              </select>
              <small>Each colour drops its own voltage, and its resistor is computed for it.</small>
            </label>`
          : nothing
      }
      ${this.singly(offer, memory?.kind)}
      <p class="acts"><button type="submit" class="act" ?disabled=${this.busy || !memory}>${this.busy ? 'Building…' : 'Build the bench'}</button></p>
      <p class="quiet">It opens as a bench of its own. What you changed on this one stays under Recent benches.</p>
      <p class="form-refusal" role="alert">${this.refusal}</p>
    </form>`;
  }

  /** Each output by itself: what it shall have in place of what all have, and the resistor that follows. */
  private singly(offer: Offered, memory: string | undefined) {
    const { outputs } = offer.table;
    const low = this.low ?? new Set(offer.activeLow);
    const { show, buffered } = this.chosen;
    const loads = show === 'loads';
    const limits =
      memory === undefined
        ? undefined
        : limitsOf({
            memory,
            show,
            buffered,
            amps: this.chosen.milliamps / 1000,
            outputs: outputs.map((name) => ({
              name,
              ...(this.chosen.colour === 'alternating' ? {} : { colour: this.chosen.colour }),
              ...this.own[name],
              ...(low.has(name) && !loads ? { activeLow: true } : {}),
            })),
          });
    return html`<fieldset class="choice singly"><legend>Each output</legend>
      <small>${coloured(show) ? 'Colour, current' : 'Current'} and the resistor that follows. “As all”: what is chosen above.</small>
      <ul>${outputs.map((name, i) => {
        const own = this.own[name] ?? {};
        const limit = limits?.[i];
        return html`<li><span class="output-name">${name}</span>
          ${
            coloured(show)
              ? html`<select aria-label="Colour of ${name}" @change=${(e: Event) => this.give(name, { colour: SINGLE[(e.target as HTMLSelectElement).selectedIndex - 1] })}>
            <option ?selected=${own.colour === undefined}>as all</option>
            ${SINGLE.map((c) => html`<option ?selected=${c === own.colour}>${c}</option>`)}</select>`
              : nothing
          }
          <select aria-label="Current of ${name}" @change=${(e: Event) => this.give(name, { amps: amps(MILLIAMPS[(e.target as HTMLSelectElement).selectedIndex - 1]) })}>
            <option ?selected=${own.amps === undefined}>as all</option>
            ${MILLIAMPS.map((m) => html`<option ?selected=${amps(m) === own.amps}>${m} mA</option>`)}</select>
          <output>${limit ? `${siFormat(limit.ohms, 'Ω')}, ${siFormat(limit.amps, 'A')}` : ''}</output>
          ${
            loads
              ? nothing
              : html`<label><input type="checkbox" .checked=${low.has(name)} @change=${() => {
                  const next = new Set(low);
                  if (!next.delete(name)) next.add(name);
                  this.low = next;
                }} /> active low</label>`
          }</li>`;
      })}</ul>
      <small>${loads ? '' : `Active low: ${CHOICE_SAYS.activeLow} `}The resistor is the next one of E12, for as much of the current as lamp and chips allow.</small>
    </fieldset>`;
  }

  private give(name: string, some: { readonly colour?: LampColour | undefined; readonly amps?: number | undefined }) {
    const { colour, amps: current } = { ...this.own[name], ...some };
    const own = { ...(colour === undefined ? {} : { colour }), ...(current === undefined ? {} : { amps: current }) };
    this.own = { ...this.own, [name]: own };
  }

  /** How the lamps will stand: as chosen, as the table suggests, or in a row where there is no choice. */
  private standing({ table, arrangement }: Offered): Arrangement {
    const able = this.chosen.show === 'lamps' ? arrangementsFor(table.outputs.length) : [];
    return able.find((a) => a === (this.stands ?? arrangement)) ?? 'row';
  }

  private arranging(offer: Offered) {
    const able = arrangementsFor(offer.table.outputs.length);
    if (this.chosen.show !== 'lamps' || able.length < 2) return nothing;
    const now = this.standing(offer);
    return this.either(
      'How the lamps stand',
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
