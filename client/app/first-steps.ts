/** The first steps: what this is in one sentence, and three things to do that are ticked off as they are done on the bench. Put away once, it stays away. */
import { html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { Ref } from '../../sim-core/index.ts';
import type { BenchModel } from '../state/bench-model.ts';
import { SessionElement } from '../state/session-element.ts';
import { icon } from '../theme/icon.ts';
import { readRoute } from '../ui/route.ts';
import { pointEvent } from '../ui/sentence-view.ts';

const KEPT = 'lampwright-first-steps';
const TICK = 'M4.500 10.500l3.500 3.500 7.500-8';

function isAway(): boolean {
  try {
    return localStorage.getItem(KEPT) === 'away';
  } catch {
    return false;
  }
}

interface Step {
  readonly id: 'supply' | 'switch' | 'why';
  readonly says: string;
  /** where there is little room */
  readonly short: string;
  /** what it is done on, to be pointed at */
  readonly on: Ref | undefined;
}

/** On a bench without a supply, a switch or an LED there is no such step. */
function stepsOn({ specimens, leds }: BenchModel): readonly Step[] {
  const supply = specimens.find((s) => s.supply);
  const hand = specimens.find((s) => s.contacts.some((c) => !c.momentary));
  const led = leds[0];
  if (!supply || !hand || !led) return [];
  return [
    { id: 'supply', says: 'Switch the supply on', short: 'Supply on', on: { kind: 'part', id: supply.part.id } },
    { id: 'switch', says: 'Set a switch', short: 'Set a switch', on: { kind: 'part', id: hand.part.id } },
    { id: 'why', says: 'Click an LED to ask why', short: 'Ask an LED why', on: { kind: 'led', id: led.led } },
  ];
}

@customElement('first-steps')
export class FirstSteps extends SessionElement {
  protected override readonly hears = ['model', 'readings'] as const;
  @state() private away = isAway();
  @state() private done: ReadonlySet<Step['id']> = new Set();
  /** how the switches of which bench stood before one was set */
  private stood: { readonly title: string; readonly switches: ReadonlyMap<string, string> } | undefined;

  /** So much of the bench's lower edge it lies over [px]: a bench is not fitted to where it is. */
  get overBench(): number {
    const { offsetHeight, offsetTop, offsetParent } = this;
    return offsetHeight > 0 && getComputedStyle(this).position === 'absolute' ? (offsetParent?.clientHeight ?? 0) - offsetTop : 0;
  }

  /** From the beginning, for whoever asks for them. */
  again() {
    [this.away, this.done, this.stood] = [false, new Set(), undefined];
  }

  override connectedCallback() {
    super.connectedCallback();
    addEventListener('hashchange', this.asked);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    removeEventListener('hashchange', this.asked);
  }

  private readonly asked = () => {
    const { page, about } = readRoute(location.hash);
    if (page === 'why' && about) this.tick('why');
  };

  private tick(id: Step['id']) {
    if (!this.away && !this.done.has(id)) this.done = new Set([...this.done, id]);
  }

  protected override willUpdate() {
    const { readings, model } = this.session ?? {};
    if (this.away || !readings || !model) return;
    if (readings.supplies.some((s) => s.on)) this.tick('supply');
    const supplies = new Set(model.specimens.flatMap((s) => (s.supply ? [s.part.id] : [])));
    const { title } = model.plan;
    const switches = new Map(Object.entries(readings.switches).flatMap(([id, poles]) => (supplies.has(id) ? [] : [[id, String(poles)]])));
    // only a hand sets a switch: on another bench, or of a switch that was placed just now, it was set by nobody here
    const before = this.stood?.title === title ? this.stood.switches : undefined;
    if ([...(before ?? [])].some(([id, poles]) => switches.has(id) && switches.get(id) !== poles)) this.tick('switch');
    this.stood = { title, switches };
  }

  private putAway() {
    this.away = true;
    try {
      localStorage.setItem(KEPT, 'away');
    } catch {
      // put away for this visit only
    }
  }

  protected override render() {
    const steps = this.session?.model ? stepsOn(this.session.model) : [];
    if (this.away || steps.length === 0) return nothing;
    const left = steps.filter((s) => !this.done.has(s.id)).length;
    return html`<section class="first-steps" aria-label="First steps">
      <p class="first-steps-what"><strong>This is a breadboard on which a memory does the work of logic.</strong> <span>The switches set its address; the byte stored there lights the LEDs.</span></p>
      <ol>${steps.map((s) => this.step(s))}</ol>
      <p class="visually-hidden" role="status">${this.done.size > 0 ? `${this.done.size} of ${steps.length} steps done` : ''}</p>
      <p class="first-steps-ways">
        <button type="button" class="plain roomy" @click=${() => this.ask('examples')}>${left === 0 ? 'Now see the examples' : 'Examples'}</button>
        <button type="button" class="plain" @click=${this.putAway}>${left === 0 ? 'Done' : html`<span class="roomy">Do not show again</span><span class="narrow">Hide</span>`}</button>
      </p>
    </section>`;
  }

  private step({ id, says, short, on }: Step) {
    const done = this.done.has(id);
    return html`<li><button type="button" class="first-step" aria-label="${says}${done ? ', done' : ''}" @click=${() => on && this.dispatchEvent(pointEvent({ ref: on, keep: true }))}>
      <span class="step-mark ${done ? 'done' : ''}" aria-hidden="true">${done ? icon(TICK) : nothing}</span><span class="roomy">${says}</span><span class="narrow">${short}</span></button></li>`;
  }

  private ask(line: string) {
    this.dispatchEvent(new CustomEvent<string>('typed', { detail: line }));
  }
}
