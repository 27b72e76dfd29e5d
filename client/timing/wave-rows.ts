/** A trace as rows to be drawn: buses as numbers over time, enables as voltages, and the windows that its sheet sets around a write. */
import { partlyHex, type Trace, type WriteReport } from '../../sim-core/index.ts';

export interface BusSpan {
  readonly from: number;
  readonly to: number;
  readonly text: string;
  readonly state: 'known' | 'unknown' | 'off';
}
export interface BusRow {
  readonly kind: 'bus';
  readonly name: string;
  readonly spans: readonly BusSpan[];
}
export interface LineRow {
  readonly kind: 'line';
  readonly name: string;
  readonly volts: readonly number[];
  /** stretches with one level */
  readonly levels: ReadonlyArray<{ readonly from: number; readonly to: number; readonly level: string }>;
}
export type WaveRow = BusRow | LineRow;

/** A stretch of time that something was measured over, and what the sheet asks of it. */
export interface Window {
  readonly name: string;
  readonly row: string;
  readonly from: number;
  readonly to: number;
  /** where it has to reach at least, or at most */
  readonly limit: number | undefined;
  readonly kept: boolean;
}

const ADDRESS = /^A(\d+)$/;
const DATA = /^D(\d+)$/;

export function waveRows(trace: Trace): readonly WaveRow[] {
  const by = (pattern: RegExp) =>
    trace.pins.filter((p) => pattern.test(p.name)).sort((a, b) => Number(pattern.exec(a.name)?.[1]) - Number(pattern.exec(b.name)?.[1]));
  const others = trace.pins.filter((p) => !ADDRESS.test(p.name) && !DATA.test(p.name) && /[LHXZ]/.test(p.levels));
  return [
    bus('A', trace, by(ADDRESS)),
    ...others.map(
      (p): LineRow => ({
        kind: 'line',
        name: p.name,
        volts: p.volts,
        levels: stretches(trace.times, [...p.levels]).map(({ value, ...s }) => ({ ...s, level: value })),
      }),
    ),
    bus('D', trace, by(DATA)),
  ];
}

/** Neighbours that are the same are one. */
function stretches(times: readonly number[], values: readonly string[]): { from: number; to: number; value: string }[] {
  const found: { from: number; to: number; value: string }[] = [];
  for (const [i, value] of values.entries()) {
    const at = times[i] ?? 0;
    const last = found.at(-1);
    if (last) last.to = at;
    if (last?.value !== value) found.push({ from: at, to: at, value });
  }
  return found.filter((s) => s.to > s.from);
}

function bus(name: string, trace: Trace, pins: Trace['pins']): BusRow {
  const values = trace.times.map((_, i) => pins.map((p) => p.levels[i] ?? 'X').join(''));
  return {
    kind: 'bus',
    name,
    spans: stretches(trace.times, values).map(({ from, to, value }): BusSpan => {
      if (/^Z+$/.test(value)) return { from, to, text: 'high-impedance', state: 'off' };
      const partly = busValue(value);
      const text = partlyHex(partly, Math.ceil(pins.length / 4));
      return { from, to, text, state: partly.unknown ? 'unknown' : 'known' };
    }),
  };
}

/** 'LHX…', least significant first, as a number and a mask of what is not known. */
function busValue(levels: string): { readonly value: number; readonly unknown: number } {
  let [value, unknown] = [0, 0];
  for (const [bit, level] of [...levels].entries()) {
    if (level === 'H') value |= 1 << bit;
    else if (level !== 'L') unknown |= 1 << bit;
  }
  return { value, unknown };
}

/** What is true at a moment: the last sample at or before it. */
export function sampleAt({ times }: Trace, time: number): number {
  let found = 0;
  for (const [i, t] of times.entries()) if (t <= time) found = i;
  return found;
}

/** The moments at which the strobe left high, was low, left low, was high. */
function edges(trace: Trace, report: WriteReport) {
  const from = report.time;
  const high = from + report.maximumLow;
  const latched = trace.states.find((s) => s.time >= from - 1e-12 && s.state.latched)?.time ?? from;
  const rose = trace.states.find((s) => s.time >= latched && s.state.latched?.data)?.time ?? high;
  return { from, latched, rose, high };
}

export function windowsOf(trace: Trace): readonly Window[] {
  const { report } = trace;
  if (!report) return [];
  const { from, latched, rose, high } = edges(trace, report);
  const strobe = ['/WE', '/PGM', '/CE'].find((name) => trace.pins.some((p) => p.name === name)) ?? '/WE';
  const least = report.limits?.least;
  const most = report.limits?.most;
  const never = report.faults.some((f) => f.fault === 'never-guaranteed-low');
  const widths: Window[] = [
    ...(never
      ? []
      : [
          {
            name: 'low, guaranteed',
            row: strobe,
            from: latched,
            to: rose,
            limit: least === undefined ? undefined : latched + least,
            kept: least === undefined || report.guaranteedLow >= least,
          },
        ]),
    {
      name: 'low, maximum',
      row: strobe,
      from,
      to: high,
      limit: most === undefined ? undefined : from + most,
      kept: most === undefined || report.maximumLow <= most,
    },
  ];
  const around: Readonly<Record<string, (measured: number, limit: number) => Omit<Window, 'kept'>>> = {
    'address-setup': (m, l) => ({ name: 'set-up', row: 'A', from: from - m, to: from, limit: from - l }),
    'address-hold': (m, l) => ({ name: 'hold', row: 'A', from: latched, to: latched + m, limit: latched + l }),
    'data-setup': (m, l) => ({ name: 'set-up', row: 'D', from: rose - m, to: rose, limit: rose - l }),
    'data-hold': (m, l) => ({ name: 'hold', row: 'D', from: high, to: high + m, limit: high + l }),
    'output-enable-setup': (m, l) => ({ name: 'set-up', row: '/OE', from: from - m, to: from, limit: from - l }),
    'output-enable-hold': (m, l) => ({ name: 'hold', row: '/OE', from: high, to: high + m, limit: high + l }),
  };
  return [
    ...widths,
    ...report.times.flatMap(({ time, measured, limit }) => {
      const window = around[time]?.(measured, limit);
      return window ? [{ ...window, kept: measured >= limit }] : [];
    }),
  ];
}

/** Moments that deserve a line from top to bottom. */
export function marksOf(trace: Trace): ReadonlyArray<{ readonly time: number; readonly says: string }> {
  const latched = trace.states.find((s) => s.state.latched);
  const taken = trace.states.find((s) => s.state.latched?.data);
  return [
    ...(latched ? [{ time: latched.time, says: 'address latched' }] : []),
    ...(taken ? [{ time: taken.time, says: 'data latched' }] : []),
  ];
}
