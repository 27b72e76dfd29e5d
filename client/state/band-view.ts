/** Least to most of a reading, on demand: worked out in a worker of its own, with how far it is and a stop, and gone as soon as the bench changes. */
import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { type Outcome, type ReadingBand, type Readings, sayBand, siFormat } from '../../sim-core/index.ts';
import { JobClient } from '../worker/job-client.ts';
import { SessionElement } from './session-element.ts';

/** What can be asked for: 'M1', 'LED3', 'PS1', 'U1.9', and what it is called. */
interface Readable {
  readonly of: string;
  readonly name: string;
}

/** So far, as a share of the larger, and by so much [V, A] what is read now may be off the typical reading before that is said. Our choice. */
const [APART, NIL] = [0.02, 1e-5];

@customElement('band-view')
export class BandView extends SessionElement {
  protected override readonly hears = [] as const;
  /** the readings to choose from */
  @property({ attribute: false }) readable: readonly Readable[] = [];
  @state() private chosen = '';
  /** how much of the work is done, 0 to 1; undefined: none is under way */
  @state() private far: number | undefined;
  @state() private band: { readonly of: string; readonly found: Outcome<ReadingBand> } | undefined;
  private off: (() => void) | undefined;
  private readonly jobs = new JobClient((part) => {
    this.far = part;
  });

  protected override willUpdate() {
    this.off ??= this.session?.on('changed', () => this.forget());
    if (this.readable.some((r) => r.of === this.chosen)) return;
    this.forget();
    this.chosen = this.readable[0]?.of ?? '';
  }

  /** What it says may begin below the edge of what scrolls. */
  protected override updated(changed: Map<PropertyKey, unknown>) {
    if (changed.has('band') && this.band) this.scrollIntoView({ block: 'nearest' });
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.off?.();
    this.off = undefined;
    this.jobs.close();
  }

  private forget() {
    this.jobs.end();
    this.band = undefined;
  }

  private async work() {
    const { session, chosen: of } = this;
    const plan = session?.plan;
    if (!plan) return;
    this.band = undefined;
    this.far = 0;
    const found = await this.jobs.begin({ job: 'band', plan, of });
    this.far = undefined;
    if (found) this.band = { of, found };
  }

  protected override render() {
    const { readable, far, band } = this;
    const [one, another] = readable;
    if (!one) return nothing;
    const name = readable.find((r) => r.of === this.chosen)?.name ?? one.name;
    return html`${
      another
        ? html`<select aria-label="Reading" @change=${(e: Event) => {
            if (!(e.target instanceof HTMLSelectElement)) return;
            this.forget();
            this.chosen = e.target.value;
          }}>${readable.map((r) => html`<option value=${r.of} ?selected=${r.of === this.chosen}>${r.name}</option>`)}</select>`
        : nothing
    }
      ${
        far === undefined
          ? html`<button type="button" class="tool" aria-label="Least to most of ${name}" @click=${() => void this.work()}>Least to most</button>`
          : html`<span class="quiet">Still computing, ${Math.round(100 * far)} %</span>
              <button type="button" class="tool" @click=${() => this.jobs.end()}>Stop</button>`
      }
      <span class="band-said" role="status">${band ? (band.found.ok ? this.said(band.of, band.found.value) : band.found.failure.says) : ''}</span>`;
  }

  private said(of: string, band: ReadingBand) {
    const { readings } = this.session ?? {};
    const now = readings && readingOf(readings, of);
    const isOff =
      now !== undefined && Math.abs(now - band.typical) > Math.max(NIL, APART * Math.max(Math.abs(now), Math.abs(band.typical)));
    return `${sayBand(band)}${isOff ? ` It reads ${siFormat(now, band.unit)} now: what the bench remembers does not count here, as after switching on.` : ''}`;
  }
}

/** What it reads now [V or A]; undefined: the readings do not have it. */
function readingOf({ meters, leds, supplies, chips }: Readings, of: string): number | undefined {
  const [part, pin] = of.split('.');
  return (
    meters[of] ??
    leds.find((l) => l.led === of)?.amps ??
    supplies.find((s) => s.part === of)?.amps ??
    chips.find((c) => c.part === part)?.pins.find((p) => p.pin === pin)?.volts
  );
}
