/** The meter in the hand: put its tip on a tie point for volts, or round a leg for amps, by pointing or by typing the name. */
import { html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { PlanMeter } from '../../shared/plan.ts';
import { holeName, readHole } from '../../sim-core/index.ts';
import type { Under } from '../scene/hit-text.ts';
import type { BenchModel } from '../state/bench-model.ts';
import type { Session } from '../state/session.ts';
import { SessionElement } from '../state/session-element.ts';
import '../state/band-view.ts';
import { meterAt, meterName, meterSays } from './meter-tags.ts';

@customElement('meter-panel')
export class MeterPanel extends SessionElement {
  protected override readonly hears = ['settled', 'model'] as const;
  @state() private measures: PlanMeter['measures'] = 'volts';
  @state() private problem = '';
  /** the meter last put down by hand; pointing again moves it */
  @state() private inHand: string | undefined;

  /** A click on the bench while measuring. */
  touch(under: Under) {
    const place = this.measures === 'amps' ? under.leg : (under.point ?? under.leg);
    if (place) this.put(place);
    else this.problem = `${under.name} has no pin to measure. Click an LED or a pin of a part.`;
  }

  /** An LED touched while measuring; true if the meter took it: amps go through the leg that is the LED's own. */
  touchLed(led: string): boolean {
    if (this.measures !== 'amps') return false;
    const all = this.session?.model?.specimens ?? [];
    const s = all.find(({ leds }) => leds.some((l) => l.led === led));
    const it = s?.leds.find((l) => l.led === led);
    if (!s || !it) return false;
    const shared = s.leds.some((l) => l !== it && l.anode === it.anode);
    this.put(`${s.part.id}.${shared ? it.cathode : it.anode}`);
    return true;
  }

  choose(measures: PlanMeter['measures']) {
    this.measures = measures;
    this.inHand = undefined;
  }

  /** The problem, if the meter cannot be put there. */
  put(named: string, against?: string): string | undefined {
    const { model } = this.session ?? {};
    if (!model) return undefined;
    const place = this.measures === 'amps' ? named : tipAt(named, model);
    this.problem = problemWith(place, this.measures, model) ?? (against ? problemWith(against, 'volts', model) : undefined) ?? '';
    if (this.problem) return this.problem;
    const { meters } = model.plan;
    const before = meters.find((m) => m.id === this.inHand);
    const id = before?.id ?? freeId(model);
    const kept = before?.label === undefined ? { id } : { id, label: before.label };
    const meter: PlanMeter =
      this.measures === 'amps'
        ? { ...kept, measures: 'amps', leg: place }
        : this.measures === 'level'
          ? { ...kept, measures: 'level', at: place }
          : { ...kept, measures: 'volts', at: place, ...(against ? { against: tipAt(against, model) } : {}) };
    this.inHand = id;
    if (before) changeMeter(this.session, meter);
    else this.session?.edit({ op: 'insert', list: 'meters', item: meter, index: meters.length });
    return undefined;
  }

  private name(meter: PlanMeter, label: string) {
    const { label: _, ...bare } = meter;
    changeMeter(this.session, label === '' ? bare : { ...bare, label });
  }

  private takeOff(meter: PlanMeter) {
    const index = this.session?.model?.plan.meters.findIndex((m) => m.id === meter.id) ?? -1;
    if (index >= 0) this.session?.edit({ op: 'remove', list: 'meters', item: meter, index });
    if (this.inHand === meter.id) this.inHand = undefined;
  }

  private submit(e: SubmitEvent) {
    e.preventDefault();
    const data = new FormData(e.target as HTMLFormElement);
    const [place, against] = ['place', 'against'].map((name) => String(data.get(name) ?? '').trim());
    if (place) this.put(place, against || undefined);
  }

  protected override render() {
    const { model, readings } = this.session ?? {};
    const volts = this.measures === 'volts';
    const amps = this.measures === 'amps';
    return html`<form @submit=${this.submit} aria-label="Meter">
        <fieldset>
          <legend class="visually-hidden">Measure</legend>
          ${(['volts', 'amps', 'level'] as const).map(
            (m) =>
              html`<label><input type="radio" name="measures" value=${m} .checked=${this.measures === m} @change=${() => this.choose(m)} />${m}</label>`,
          )}
        </fieldset>
        <label class="field">${amps ? 'through' : 'at'} <input name="place" size="7" autocomplete="off" spellcheck="false" placeholder=${amps ? 'R1.1' : 'a12'} /></label>
        ${volts ? html`<label class="field">against <input name="against" size="7" autocomplete="off" spellcheck="false" placeholder="supply −" /></label>` : nothing}
        <button type="submit" class="act">Put</button>
        ${
          this.inHand
            ? html`<button type="button" class="plain" @click=${() => {
                this.inHand = undefined;
              }}>Add another</button>`
            : nothing
        }
      </form>
      <p class="quiet">${this.problem || (amps ? 'Or click an LED or a pin on the bench.' : 'Or click a hole on the bench.')}</p>
      <ul class="meters">
        ${model?.plan.meters.map(
          (m) => html`<li>
            <input class="meter-label" size="10" maxlength="40" autocomplete="off" aria-label="Name of the meter at ${meterAt(m)}" .value=${m.label ?? ''} placeholder=${meterName({ ...m, label: undefined })} @change=${(e: Event) => this.name(m, (e.target as HTMLInputElement).value.trim())} />
            <output class="figures">${readings ? meterSays(m, readings) : ''}</output>
            <button type="button" class="plain" aria-label="Remove the meter at ${meterAt(m)}" @click=${() => this.takeOff(m)}>Remove</button>
            ${m.measures === 'level' ? nothing : html`<band-view .session=${this.session} .readable=${[{ of: m.id, name: meterName(m) }]}></band-view>`}
          </li>`,
        )}
      </ul>`;
  }
}

/** A meter of this bench, another way: at another place, with another name, its tag elsewhere. */
export function changeMeter(session: Session | undefined, meter: PlanMeter): void {
  const meters = session?.model?.plan.meters ?? [];
  const index = meters.findIndex((m) => m.id === meter.id);
  const before = meters[index];
  if (before)
    session?.edit({
      op: 'all',
      changes: [
        { op: 'remove', list: 'meters', item: before, index },
        { op: 'insert', list: 'meters', item: meter, index },
      ],
    });
}

/** A voltmeter's tip goes into a hole: a leg's name is turned into its hole's. Terminals off the boards keep theirs. */
function tipAt(named: string, { plan, layout }: BenchModel): string {
  const leg = layout.legs.find((l) => `${l.part.id}.${l.pin}` === named);
  return leg?.hole ? holeName(leg.hole, plan.boards) : named;
}

function freeId({ plan }: BenchModel): string {
  const taken = new Set([...plan.meters, ...plan.parts, ...plan.boards, ...plan.wires].map((x) => x.id));
  let n = 1;
  while (taken.has(`M${n}`)) n++;
  return `M${n}`;
}

function problemWith(place: string, measures: PlanMeter['measures'], { plan, netOfLeg }: BenchModel): string | undefined {
  if (netOfLeg.has(place)) return undefined;
  if (measures === 'amps') return `No pin ${place} on this bench. Write a part and a pin, such as R1.1.`;
  const hole = readHole(place, plan.boards);
  return hole.ok ? undefined : hole.failure.says;
}
