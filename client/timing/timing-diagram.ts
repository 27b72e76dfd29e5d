/** The timing strip: the waveforms of the last write or read as they were computed, and each figure beside the part's limit. */
import { html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import {
  dumpTrace,
  type PartKind,
  partlyHex,
  partlyHexAddress,
  siFormat,
  type Trace,
  type WriteReport,
  type WriteTime,
} from '../../sim-core/index.ts';
import { SessionElement } from '../state/session-element.ts';
import { offerFile } from '../ui/offer-file.ts';
import { makeReplay } from './replay.ts';
import './wave-chart.ts';
import { icon } from '../theme/icon.ts';
import type { WaveChart } from './wave-chart.ts';

interface Bar {
  readonly name: string;
  readonly measured: number;
  readonly least?: number | undefined;
  readonly most?: number | undefined;
}

const COMMAND: Readonly<Record<WriteReport['outcome'], string>> = {
  stored: 'taken as a step of the software data protection',
  uncertain: 'possibly a step of the software data protection',
  ignored: 'ignored',
};
const OUTCOME: Readonly<Record<WriteReport['outcome'], string>> = { stored: 'stored', uncertain: 'may not be stored', ignored: 'ignored' };

/** A step of a software protection sequence is a write as well, and stores nothing. */
const writeSays = (w: WriteReport): string =>
  `write of ${partlyHex(w.data, 2)} at ${partlyHexAddress(w.address)}: ${w.command ? COMMAND[w.outcome] : OUTCOME[w.outcome]}`;

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

/** A pulse that was never guaranteed low latched nothing, so nothing was set up for it. */
function bars(w: WriteReport, kind: PartKind | undefined): readonly Bar[] {
  const latched = !w.faults.some((f) => f.fault === 'never-guaranteed-low');
  const timesOf = (wanted: readonly WriteTime[]): Bar[] =>
    wanted
      .flatMap((time) => w.times.filter((t) => t.time === time && (ALWAYS.has(time) || t.measured < t.limit)))
      .map((t) => ({ name: TIMES[t.time], measured: t.measured, least: t.limit }));
  return [
    ...(latched ? timesOf(['output-enable-setup', 'address-setup', 'address-hold']) : []),
    { name: '/WE low, guaranteed', measured: w.guaranteedLow, least: figure(kind, 'write pulse, least') },
    { name: '/WE low, maximum', measured: w.maximumLow, most: figure(kind, 'write pulse, most') },
    ...(latched ? timesOf(['data-setup', 'data-hold', 'output-enable-hold']) : []),
  ];
}

/** A bouncing button makes many pulses: the one that did something, else the last. */
const worthShowing = (writes: readonly WriteReport[]): WriteReport | undefined =>
  writes.findLast((w) => w.outcome !== 'ignored') ?? writes.at(-1);

const kept = ({ measured, least, most }: Bar) => (least === undefined || measured >= least) && (most === undefined || measured <= most);
const says = (seconds: number) => (Number.isFinite(seconds) ? siFormat(seconds, 's') : 'long before');

@customElement('timing-diagram')
export class TimingDiagram extends SessionElement {
  protected override readonly hears = ['written', 'model'] as const;
  /** is there room for it below the bench? Where it would cover some of it, only its first line opens by itself. */
  @property({ attribute: false }) room: () => boolean = () => true;
  /** opened by hand, though nothing has been written yet */
  @state() private wanted = false;
  /** on a small window the bench needs the room, and the strip's first line says how the write ended */
  @state() private folded = matchMedia('(max-width: 40rem)').matches;
  @state() private playing = false;
  @query('wave-chart') private readonly chart!: WaveChart | null;
  private readonly replay = makeReplay(
    (time) => this.session?.recordings.look(time),
    (playing) => {
      this.playing = playing;
    },
  );
  private off: (() => void) | undefined;
  /** What was once its height stays so while it is open: the bench above must not move between two touches of a hand [px]. */
  private tallest = 0;
  private readonly size = new ResizeObserver(() => {
    if (this.folded || this.offsetHeight <= this.tallest) return;
    this.tallest = this.offsetHeight;
    this.style.minHeight = `${this.tallest}px`;
  });

  protected override willUpdate() {
    if (this.folded && this.tallest > 0) {
      this.tallest = 0;
      this.style.minHeight = '';
    }
    this.off ??= this.session?.recordings.on(() => this.requestUpdate());
  }

  override connectedCallback() {
    super.connectedCallback();
    this.size.observe(this);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.size.disconnect();
    this.replay.stop();
    this.off?.();
    this.off = undefined;
  }

  open() {
    this.wanted = true;
    this.fold(false);
  }

  /** By hand: the bench may fit itself to what room is left. */
  private fold(folded: boolean) {
    if (folded !== this.folded) this.dispatchEvent(new Event('room-asked'));
    this.folded = folded;
  }

  /** Unfolds the strip and lets the last write pass once more, slowly. */
  play() {
    this.fold(false);
    const trace = this.session?.recordings.trace;
    if (trace) this.replay.play(trace);
  }

  protected override render() {
    const { session } = this;
    const trace = session?.recordings.trace;
    const w = session && (trace?.report ?? worthShowing(session.writes));
    const hidden = !session || (session.writes.length === 0 && !(this.wanted && trace));
    if (this.hidden && !hidden && !this.wanted) this.folded ||= !this.room();
    this.hidden = hidden;
    if (!session || this.hidden) return nothing;
    const kind = session.model?.specimen.get(trace?.part ?? w?.part ?? '')?.kind;
    return html`<section aria-label="Timing diagram">
      <header>
        <h2 class="strip-title">Timing diagram</h2>
        <p class="figures strip-says">${trace?.what === 'read' ? readSays(trace, kind) : w ? writeSays(w) : ''}</p>
        ${trace && !this.folded ? this.tools(trace) : nothing}
        <button type="button" class="fold strip-fold" aria-expanded=${!this.folded} @click=${() => this.fold(!this.folded)}>
          <span class="visually-hidden">${this.folded ? 'Open the timing diagram' : 'Close the timing diagram'}</span>
          ${icon(this.folded ? 'M4 10l4-4 4 4' : 'M4 6l4 4 4-4', 16)}
        </button>
      </header>
      ${
        this.folded
          ? nothing
          : html`${
              trace
                ? html`<wave-chart .trace=${trace} .cursor=${session.recordings.cursor} .volts=${session.model?.volts ?? 5} @cursor=${(
                    e: CustomEvent<number>,
                  ) => {
                    this.replay.stop();
                    session.recordings.look(e.detail);
                  }}></wave-chart>`
                : nothing
            }
            ${w && trace?.what !== 'read' ? html`<dl class="bars">${bars(w, kind).map(bar)}</dl>` : nothing}`
      }
    </section>`;
  }

  private tools(trace: Trace) {
    const tool = (name: string, path: string, act: () => void, pressed?: boolean) => html`<button
      type="button"
      aria-label=${name}
      title=${name}
      aria-pressed=${pressed ?? nothing}
      @click=${act}
    >${icon(path)}</button>`;
    return html`<div class="strip-tools" role="group" aria-label="Waveforms">
      ${tool('Replay slowly', this.playing ? 'M6 5v10M13 5v10' : 'M6 4l10 6-10 6z', () => (this.playing ? this.replay.stop() : this.replay.play(trace)), this.playing)}
      ${tool('Zoom in on the write', 'M3 10h4M17 10h-4M7 6l-4 4 4 4M13 6l4 4-4 4', () => this.chart?.zoom(1.6))}
      ${tool('Whole recording', 'M3 4v12M17 4v12M6 10h8M8.500 7.500l-2.500 2.500 2.500 2.500M11.500 7.500l2.500 2.500-2.500 2.500', () => this.chart?.whole())}
      ${tool('Save the waveforms as VCD', 'M10 3v9M6.500 8.500l3.500 3.500 3.500-3.500M4 16h12', () => this.save(trace))}
      ${
        this.session?.recordings.cursor === undefined
          ? nothing
          : html`<button type="button" class="plain strip-live" @click=${() => {
              this.replay.stop();
              this.session?.recordings.look(undefined);
            }}>Back to now</button>`
      }
    </div>`;
  }

  private save(trace: Trace) {
    const dump = dumpTrace(trace);
    if (dump.ok)
      offerFile(
        `${this.session?.model?.plan.title ?? 'bench'} ${trace.part} ${trace.what}`,
        'vcd',
        new Blob([dump.value], { type: 'text/plain' }),
      );
    else this.session?.refuse(dump.failure);
  }
}

/** "read of 0x00B: byte valid after 150 ns, at most 150 ns" */
function readSays(trace: Trace, kind: PartKind | undefined): string {
  const rows = trace.pins.filter((p) => /^D\d+$/.test(p.name));
  const moved = lastChange(
    trace,
    trace.pins.filter((p) => !/^D\d+$/.test(p.name)),
  );
  const valid = lastChange(trace, rows);
  const most = figure(kind, 'access time');
  const address = trace.states.at(-1)?.state.address;
  const head = `read${address ? ` of ${partlyHexAddress(address)}` : ''}`;
  if (moved === undefined || valid === undefined || valid <= moved) return `${head}: the byte stayed the same`;
  return `${head}: byte valid after ${siFormat(valid - moved, 's')}${most === undefined ? '' : `, at most ${siFormat(most, 's')}`}`;
}

/** When the level of any of these pins changed last [s]. */
function lastChange({ times }: Trace, pins: Trace['pins']): number | undefined {
  let last: number | undefined;
  for (const { levels } of pins)
    for (let i = 1; i < levels.length; i++)
      if (levels[i] !== levels[i - 1] && (last === undefined || (times[i] ?? 0) > last)) last = times[i];
  return last;
}

function bar(b: Bar) {
  const limit = [b.least === undefined ? '' : `at least ${says(b.least)}`, b.most === undefined ? '' : `at most ${says(b.most)}`]
    .filter(Boolean)
    .join(', ');
  return html`<div class="bar" data-kept=${kept(b)}>
    <dt>${b.name}</dt>
    <dd><span class="figures">${says(b.measured)}${kept(b) ? '' : ' ✗'}</span> <span class="quiet">${limit}</span></dd>
  </div>`;
}
