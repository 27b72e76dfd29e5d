/** The timing strip: the last write as it was measured on the pins, each figure drawn to scale beside the part's limit. */
import { html, LitElement, nothing, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { addressHex, type PartKind, partlyHex, siFormat, type WriteReport, type WriteTime } from '../core.ts';
import { Listen } from '../listen.ts';
import type { Session } from '../session.ts';

interface Bar {
  readonly name: string;
  readonly measured: number;
  readonly least?: number | undefined;
  readonly most?: number | undefined;
}

const COMMAND: Readonly<Record<WriteReport['outcome'], string>> = {
  stored: 'taken as a step of the software protection',
  uncertain: 'perhaps a step of the software protection',
  ignored: 'ignored',
};
const OUTCOME: Readonly<Record<WriteReport['outcome'], string>> = { stored: 'stored', uncertain: 'not surely stored', ignored: 'ignored' };

/** A step of a software protection sequence is a write as well, and stores nothing. */
const writeSays = (w: WriteReport): string =>
  `write of ${partlyHex(w.data, 2)} at 0x${addressHex(w.address)}: ${w.command ? COMMAND[w.outcome] : OUTCOME[w.outcome]}`;

/** The part's own figure of that name, if it gives one. */
const figure = (kind: PartKind | undefined, name: string): number | undefined => kind?.figures.find((f) => f.name === name)?.value;

const TIMES: Readonly<Record<WriteTime, string>> = {
  'address-setup': 'address set-up',
  'address-hold': 'address hold',
  'data-setup': 'data set-up',
  'data-hold': 'data hold',
  'output-enable-setup': '/OE set-up',
  'output-enable-hold': '/OE hold',
};

/** The others are drawn where they were not kept. */
const ALWAYS: ReadonlySet<WriteTime> = new Set(['address-setup', 'data-setup']);

/** A pulse that was never surely low latched nothing, so there is nothing that was set up for it. */
function bars(w: WriteReport, kind: PartKind | undefined): readonly Bar[] {
  const latched = !w.faults.some((f) => f.fault === 'never-sure-low');
  const timesOf = (wanted: readonly WriteTime[]): Bar[] =>
    wanted
      .flatMap((time) => w.times.filter((t) => t.time === time && (ALWAYS.has(time) || t.measured < t.limit)))
      .map((t) => ({ name: TIMES[t.time], measured: t.measured, least: t.limit }));
  return [
    ...(latched ? timesOf(['output-enable-setup', 'address-setup', 'address-hold']) : []),
    { name: '/WE surely low', measured: w.sureLow, least: figure(kind, 'write pulse, least') },
    { name: '/WE perhaps low', measured: w.maybeLow, most: figure(kind, 'write pulse, most') },
    ...(latched ? timesOf(['data-setup', 'data-hold', 'output-enable-hold']) : []),
  ];
}

/** A chattering button makes many pulses: the one that did something, else the last. */
const worthShowing = (writes: readonly WriteReport[]): WriteReport | undefined =>
  writes.findLast((w) => w.outcome !== 'ignored') ?? writes.at(-1);

const kept = ({ measured, least, most }: Bar) => (least === undefined || measured >= least) && (most === undefined || measured <= most);
const says = (seconds: number) => (Number.isFinite(seconds) ? siFormat(seconds, 's') : 'long before');

@customElement('timing-strip')
export class TimingStrip extends LitElement {
  @property({ attribute: false }) session: Session | undefined;
  /** on a small window the bench needs the room, and the strip's first line says how the write ended */
  @state() private folded = matchMedia('(max-width: 40rem)').matches;

  constructor() {
    super();
    new Listen(this, () => this.session, ['written', 'standing']);
  }

  protected override createRenderRoot() {
    return this;
  }

  protected override render() {
    const { session } = this;
    const w = session && worthShowing(session.writes);
    this.hidden = w === undefined;
    if (!session || !w) return nothing;
    const kind = session.standing?.specimen.get(w.part)?.kind;
    const all = bars(w, kind);
    const limits = all.flatMap((b) => [b.least ?? 0, b.most ?? 0, Math.min(b.measured, 2e-6)]);
    // a little more than the longest thing that is drawn whole
    const scale = 1.12 * Math.max(...limits);
    return html`<section aria-label="Timing strip">
      <header>
        <h2 class="strip-title">Timing strip</h2>
        <p class="figures strip-says">${writeSays(w)}</p>
        <button type="button" class="fold strip-fold" aria-expanded=${!this.folded} @click=${() => {
          this.folded = !this.folded;
        }}>
          <span class="visually-hidden">${this.folded ? 'Unfold the timing strip' : 'Fold the timing strip away'}</span>
          <svg viewBox="0 0 16 16" aria-hidden="true"><path d=${this.folded ? 'M4 10l4-4 4 4' : 'M4 6l4 4 4-4'} /></svg>
        </button>
      </header>
      ${this.folded ? nothing : html`<dl>${all.map((b) => this.bar(b, scale))}</dl>`}
    </section>`;
  }

  private bar(b: Bar, scale: number) {
    const at = (seconds: number) => `${(100 * Math.max(0, Math.min(1, seconds / scale))).toFixed(2)}%`;
    const limit = [b.least === undefined ? '' : `at least ${says(b.least)}`, b.most === undefined ? '' : `at most ${says(b.most)}`]
      .filter(Boolean)
      .join(', ');
    return html`<div class="bar" data-kept=${kept(b)}>
      <dt>${b.name}</dt>
      <dd>
        <svg class="bar-scale" aria-hidden="true">
          ${b.least === undefined ? nothing : svg`<svg x=${at(b.least)}><rect class="allowed" y="3" width="100%" height="16" /></svg>`}
          ${b.most === undefined ? nothing : svg`<rect class="allowed" y="3" width=${at(b.most)} height="16" />`}
          ${
            b.measured <= scale
              ? svg`<line class="measured" x1="0" x2=${at(b.measured)} y1="11" y2="11" /><circle class="measured-end" cx=${at(b.measured)} cy="11" r="4.5" />`
              : svg`<line class="measured" x1="0" x2="88%" y1="11" y2="11" /><line class="measured goes-on" x1="88%" x2="100%" y1="11" y2="11" />`
          }
          ${b.least === undefined ? nothing : svg`<line class="limit" x1=${at(b.least)} x2=${at(b.least)} y1="1" y2="21" />`}
          ${b.most === undefined ? nothing : svg`<line class="limit" x1=${at(b.most)} x2=${at(b.most)} y1="1" y2="21" />`}
        </svg>
        <span class="figures">${says(b.measured)}${kept(b) ? '' : ' ✗'}</span>
        <span class="quiet">${limit}</span>
      </dd>
    </div>`;
  }
}
