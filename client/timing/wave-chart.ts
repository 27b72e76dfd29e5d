/** Waveforms of one write or read: rows to one scale of time, the sheet's windows on them, and a cursor that can be moved, or runs slowly by itself. */
import { html, nothing, type PropertyValues, svg } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { siFormat, type Trace } from '../../sim-core/index.ts';
import { LightElement } from '../ui/light-element.ts';
import { type BusRow, type LineRow, marksOf, type WaveRow, type Window, waveRows, windowsOf } from './wave-rows.ts';

/** Heights of rows [px], by what they show; the strobe is drawn taller, for its width is what is measured. */
const [BUS, LINE, TALL, GAP, HEAD, AXIS] = [22, 20, 52, 9, 18, 20];
/** Room for the rows' names [px]. */
const NAMES = 60;
/** How far the time axis can be drawn out. */
const MOST_ZOOM = 400;

/** Half of the widest label on the axis [px]. */
const EDGE = 24;

@customElement('wave-chart')
export class WaveChart extends LightElement {
  @property({ attribute: false }) trace: Trace | undefined;
  @property({ attribute: false }) cursor: number | undefined;
  /** supply [V]: the top of the rows */
  @property({ type: Number }) volts = 5;
  @state() private width = 600;
  /** the stretch of time in sight [s] */
  @state() private sight: readonly [from: number, to: number] = [0, 1];
  private rows: readonly WaveRow[] = [];
  private windows: readonly Window[] = [];
  private dragged: number | undefined;

  override connectedCallback() {
    super.connectedCallback();
    new ResizeObserver(([e]) => {
      if (e && e.contentRect.width > 0) this.width = e.contentRect.width;
    }).observe(this);
  }

  protected override willUpdate(changed: PropertyValues<this>) {
    const { trace } = this;
    if (!changed.has('trace') || !trace) return;
    this.rows = waveRows(trace);
    this.windows = windowsOf(trace);
    this.whole();
  }

  whole() {
    const { times } = this.trace ?? { times: [0, 1] };
    this.sight = [times[0] ?? 0, times.at(-1) ?? 1];
  }

  /** factor > 1: nearer; about a moment, which stays where it is */
  zoom(factor: number, about?: number) {
    const [from, to] = this.sight;
    const { times } = this.trace ?? { times: [0, 1] };
    const [first, last] = [times[0] ?? 0, times.at(-1) ?? 1];
    const centre = about ?? this.cursor ?? (from + to) / 2;
    const long = Math.min(last - first, Math.max((last - first) / MOST_ZOOM, (to - from) / factor));
    const begin = Math.max(first, Math.min(last - long, centre - ((centre - from) / (to - from)) * long));
    this.sight = [begin, begin + long];
  }

  private timeAt(clientX: number): number {
    const [from, to] = this.sight;
    const left = this.getBoundingClientRect().left + NAMES;
    return from + ((clientX - left) / Math.max(1, this.width - NAMES)) * (to - from);
  }

  private tell(time: number) {
    const { times } = this.trace ?? { times: [0, 1] };
    const detail = Math.min(times.at(-1) ?? 1, Math.max(times[0] ?? 0, time));
    this.dispatchEvent(new CustomEvent<number>('cursor', { detail }));
  }

  private keys(e: KeyboardEvent) {
    const [from, to] = this.sight;
    const step = { ArrowLeft: -1, ArrowRight: 1 }[e.key];
    if (step !== undefined) this.tell((this.cursor ?? from) + (step * (to - from)) / (e.shiftKey ? 400 : 40));
    else if (e.key === '+' || e.key === '=') this.zoom(1.6);
    else if (e.key === '-') this.zoom(1 / 1.6);
    else if (e.key === 'Home') this.whole();
    else return;
    e.preventDefault();
    e.stopPropagation();
  }

  protected override render() {
    const { trace, width, rows } = this;
    if (!trace || rows.length === 0) return nothing;
    const strobe = this.windows[0]?.row;
    const narrow = width < 520;
    let y = narrow ? 2 * HEAD : HEAD;
    const placed = rows.map((row) => {
      const height = row.kind === 'bus' ? BUS : row.name === strobe ? TALL : LINE;
      const at = { row, y, height };
      y += height + GAP;
      return at;
    });
    const height = y + AXIS;
    const [from, to] = this.sight;
    // far outside, a drawing's coordinates would lose their figures
    const x = (t: number) => Math.max(-width, Math.min(2 * width, NAMES + ((t - from) / (to - from)) * (width - NAMES)));
    const cursor = this.cursor;
    return html`<svg
      class="waves"
      viewBox="0 0 ${width} ${height}"
      height=${height}
      role="slider"
      tabindex="0"
      aria-label="Time in the recorded ${trace.what}"
      aria-valuemin="0"
      aria-valuemax=${Math.round(((trace.times.at(-1) ?? 0) - (trace.times[0] ?? 0)) * 1e9)}
      aria-valuenow=${Math.round(((cursor ?? trace.times[0] ?? 0) - (trace.times[0] ?? 0)) * 1e9)}
      aria-valuetext=${cursor === undefined ? 'no time selected' : `${siFormat(cursor - (trace.report?.time ?? trace.times[0] ?? 0), 's')} after the start`}
      @keydown=${this.keys}
      @wheel=${(e: WheelEvent) => {
        e.preventDefault();
        this.zoom(Math.exp(-e.deltaY * 0.002), this.timeAt(e.clientX));
      }}
      @pointerdown=${(e: PointerEvent) => {
        (e.currentTarget as Element).setPointerCapture(e.pointerId);
        this.dragged = e.pointerId;
        this.tell(this.timeAt(e.clientX));
      }}
      @pointermove=${(e: PointerEvent) => this.dragged === e.pointerId && this.tell(this.timeAt(e.clientX))}
      @lostpointercapture=${() => {
        this.dragged = undefined;
      }}
    >
      <pattern id="wave-hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="wave-hatch" d="M0 0V5" /></pattern>
      <clipPath id="waves-clip"><rect x=${NAMES} y="0" width=${Math.max(0, width - NAMES)} height=${height} /></clipPath>
      ${placed.map(({ row, y: top, height: tall }) => rowName(row.name, top + tall / 2 + 4))}
      <g clip-path="url(#waves-clip)">
        ${placed.map(({ row, y: top, height: tall }) => this.windows.filter((w) => w.row === row.name).map((w, i) => windowMark(w, x, top, tall, i)))}
        ${marksOf(trace).map((m, i) => this.mark(x(m.time), m.says, height, i, narrow))}
        ${placed.map(({ row, y: top, height: tall }) => (row.kind === 'bus' ? busPath(row, x, top, tall, width) : this.line(row, x, top, tall)))}
        ${this.axis(x, height)}
        ${cursor === undefined ? nothing : svg`<path class="wave-cursor" d="M${x(cursor)} 0V${height}" />`}
      </g>
    </svg>`;
  }

  private mark(at: number, says: string, height: number, turn: number, narrow: boolean) {
    const right = narrow || turn % 2 === 1;
    const y = narrow ? 12 + 14 * turn : 12;
    return svg`<g class="wave-mark"><path d="M${at} 4V${height - AXIS}" /><text x=${at + (right ? 5 : -5)} y=${y} text-anchor=${right ? 'start' : 'end'}>${says}</text></g>`;
  }

  private line(row: LineRow, x: (t: number) => number, top: number, tall: number) {
    const y = (v: number) => top + tall - 1 - (Math.max(-0.4, Math.min(this.volts * 1.1, v)) / this.volts) * (tall - 2);
    const d = row.volts.map((v, i) => `${i === 0 ? 'M' : 'L'}${x(this.trace?.times[i] ?? 0).toFixed(1)} ${y(v).toFixed(1)}`).join('');
    const unsure = row.levels.filter((l) => l.level === 'X');
    return svg`${unsure.map((l) => svg`<rect class="wave-unsure" x=${x(l.from)} y=${top} width=${Math.max(0, x(l.to) - x(l.from))} height=${tall} />`)}<path class="wave-line" d=${d} />`;
  }

  private axis(x: (t: number) => number, height: number) {
    const [from, to] = this.sight;
    const zero = this.trace?.report?.time ?? this.trace?.times[0] ?? 0;
    const step = roundStep((to - from) / Math.max(2, (this.width - NAMES) / 110));
    const first = Math.ceil((from - zero) / step);
    const ticks = Array.from({ length: Math.max(0, Math.floor((to - zero) / step) - first + 1) }, (_, i) => (first + i) * step);
    // at an edge a label stands beside its tick, so that none is cut
    const anchor = (at: number) => (at < NAMES + EDGE ? 'start' : at > this.width - EDGE ? 'end' : 'middle');
    return ticks.map(
      (t) =>
        svg`<g class="wave-tick"><path d="M${x(zero + t)} ${height - AXIS}v4" /><text x=${x(zero + t)} y=${height - 4} text-anchor=${anchor(x(zero + t))}>${Math.abs(t) < step / 2 ? '0' : siFormat(t, 's')}</text></g>`,
    );
  }
}

/** 1, 2 or 5 times a power of ten. */
function roundStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough));
  const wire = rough / power;
  return power * (wire > 5 ? 10 : wire > 2 ? 5 : wire > 1 ? 2 : 1);
}

/** Active low with a line over it. */
function rowName(name: string, y: number) {
  const low = name.startsWith('/');
  const print = low ? name.slice(1) : name;
  return svg`<g class="wave-name"><text x=${NAMES - 12} y=${y}>${print}</text>${low ? svg`<path d="M${NAMES - 12 - print.length * 7.8} ${y - 11.5}h${print.length * 7.8}" />` : nothing}</g>`;
}

function busPath(row: BusRow, x: (t: number) => number, top: number, tall: number, width: number) {
  const [mid, low] = [top + tall / 2, top + tall];
  return row.spans.map((s) => {
    const [a, b] = [x(s.from), x(s.to)];
    if (b < NAMES || a > width) return nothing;
    if (s.state === 'off')
      return svg`<path class="wave-line wave-off" d="M${a} ${mid}H${b}" /><text class="wave-text" x=${Math.max(a, NAMES) + 8} y=${mid - 4}>${b - a > 90 ? s.text : ''}</text>`;
    const lean = Math.min(4, (b - a) / 2);
    const room = Math.min(b, width) - Math.max(a, NAMES);
    return svg`<path class="wave-bus ${s.state}" d="M${a} ${mid}L${a + lean} ${top}H${b - lean}L${b} ${mid}L${b - lean} ${low}H${a + lean}Z" />${
      room > s.text.length * 8 + 8 ? svg`<text class="wave-text" x=${Math.max(a, NAMES) + 8} y=${mid + 4.5}>${s.text}</text>` : nothing
    }`;
  });
}

/** A stretch that was measured, to scale, with the place that it has to reach. */
function windowMark(w: Window, x: (t: number) => number, top: number, tall: number, turn: number) {
  const strip = w.row === 'A' || w.row === 'D' || w.row === '/OE';
  const [a, b] = [x(w.from), x(w.to)];
  const wide = w.name === 'low, maximum';
  const [y, h] = strip ? [top + tall + 2, 4] : [top, tall];
  const limit =
    w.limit === undefined ? nothing : svg`<path class="wave-limit" d="M${x(w.limit)} ${y - (strip ? 2 : 0)}v${h + (strip ? 3 : 5)}" />`;
  const name = wide ? 'wave-window wide' : 'wave-window';
  return svg`<rect class=${name} data-kept=${w.kept} data-turn=${turn} x=${a} y=${y} width=${Math.max(1, b - a)} height=${h} />${limit}`;
}
