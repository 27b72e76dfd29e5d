/** A record as text for other programs: a value change dump, and a table of commas. What was made coarser is undefined there, or has its least and most beside it. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { type VcdModule, writeVcd } from '../formats/vcd.ts';
import type { BenchRecord, Recorded, TimeWindow } from './bench-record.ts';
import { busBits, DOING, LEVELS, type Signal } from './signals.ts';
import type { TrackSpan } from './track.ts';

const STATE = { L: '0', H: '1', X: 'x', Z: 'z' } as const;
/** Bits of the number of a state. */
const STATE_BITS = 4;
/** What stands on no board belongs to the bench. */
const BENCH = 'bench';

/** Text of a `.vcd` file, IEEE 1364 clause 18. Fails with `record/not-triggered` or `trace/too-early`. */
export function recordVcd(record: BenchRecord): Outcome<string> {
  const { window } = record;
  if (!window) return notTriggered();
  const names = [...new Set(record.all.map(({ signal }) => signal.of))];
  const modules = names.map((of): VcdModule => {
    const own = record.all.filter(({ signal }) => signal.of === of);
    return {
      name: of === '' ? BENCH : of,
      wires: own.filter((r) => r.signal.kind === 'level').map((r) => ({ name: r.signal.name, states: steps(r, window, 'x', levelState) })),
      reals: own
        .filter(({ signal: { kind } }) => kind === 'volts' || kind === 'amps')
        .map((r) => ({
          name: r.signal.name,
          unit: r.signal.kind === 'volts' ? 'volts' : 'amps',
          values: steps(r, window, undefined, (v) => v).map(({ time, state }) => ({ time, value: state })),
        })),
      buses: own
        .filter(({ signal: { kind } }) => kind === 'bus' || kind === 'state')
        .map((r) => ({
          name: r.signal.name,
          bits: bitsOf(r.signal),
          states: steps(r, window, 'x'.repeat(bitsOf(r.signal)), (v) => bitText(r.signal, v)),
        })),
    };
  });
  const legend = DOING.map((doing, i) => `${i} ${doing}`).join(', ');
  return writeVcd(modules, window.from, window.until, record.all.some(({ signal }) => signal.kind === 'state') ? [`state: ${legend}`] : []);
}

const notTriggered = () =>
  failed('record/not-triggered', 'trigger', 'What the record waits for has not happened. Let more happen, or wait for something else.');

const levelState = (value: number) => STATE[LEVELS[value] ?? 'X'];
const bitsOf = ({ bits }: Signal): number => bits ?? STATE_BITS;
const bitText = (signal: Signal, value: number): string =>
  signal.kind === 'bus' ? busBits(value, bitsOf(signal)) : value.toString(2).padStart(STATE_BITS, '0');

/** What it was from each moment on, the first at the beginning of the window. vague: what stands for several values in one span; undefined: the last of them. */
function steps<T>(
  { track }: Recorded,
  { from, until }: TimeWindow,
  vague: T | undefined,
  read: (value: number) => T,
): { time: number; state: T }[] {
  const found: { time: number; state: T }[] = [];
  const put = (time: number, state: T) => {
    if (found.at(-1)?.state !== state) found.push({ time: Math.max(from, time), state });
  };
  for (const span of track.between(from, until)) {
    if (isOne(span)) {
      put(span.from, read(span.first));
      // what was within the grain until here is where the next change begins
      if (vague === undefined && span.until > span.from && span.until <= until && span.last !== span.first)
        put(span.until, read(span.last));
      continue;
    }
    if (vague === undefined) put(span.from, read(span.first));
    else put(span.from, vague);
    if (span.until <= until) put(span.until, read(span.last));
  }
  return found;
}

const isOne = ({ moves, least, most }: TrackSpan): boolean => moves === 1 || least === most;

/** Text of a `.csv` file: one line for every moment at which something moved; least and most stand beside what was made coarser. Fails with `record/not-triggered`. */
export function recordCsv(record: BenchRecord): Outcome<string> {
  const { window } = record;
  if (!window) return notTriggered();
  const columns = record.all.map((r) => ({ ...r, spans: r.track.between(window.from, window.until), at: 0 }));
  const times = new Set<number>();
  for (const { spans } of columns)
    for (const { from, until } of spans) for (const t of [from, until]) times.add(Math.min(window.until, Math.max(window.from, t)));
  const head = columns.flatMap(({ signal }) => {
    const name = csvText(`${[signal.of, signal.name].filter((s) => s !== '').join('.')}${UNITS[signal.kind]}`);
    return signal.kind === 'volts' || signal.kind === 'amps' ? [name, csvText(`${name} least`), csvText(`${name} most`)] : [name];
  });
  const lines = [...times].sort((a, b) => a - b).map((t) => [exactTime(t), ...columns.flatMap((c) => cellsAt(c, t))].join(','));
  return done(`${[['time [s]', ...head].join(','), ...lines].join('\n')}\n`);
}

const UNITS: Readonly<Record<Signal['kind'], string>> = { volts: ' [V]', amps: ' [A]', level: '', bus: '', state: '' };
const csvText = (text: string): string => (/[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
const exactTime = (t: number): string => String(t);

function cellsAt(column: Recorded & { readonly spans: readonly TrackSpan[]; at: number }, t: number): string[] {
  const { spans, signal } = column;
  while (column.at + 1 < spans.length && (spans[column.at + 1] as TrackSpan).from <= t) column.at += 1;
  const span = spans[column.at];
  const isNumber = signal.kind === 'volts' || signal.kind === 'amps';
  if (!span || span.from > t) return isNumber ? ['', '', ''] : [''];
  const value = t >= span.until ? span.last : span.first;
  if (isNumber) return [String(value), isOne(span) ? '' : String(span.least), isOne(span) ? '' : String(span.most)];
  if (!isOne(span) && t > span.from && t < span.until) return [''];
  if (signal.kind === 'level') return [LEVELS[value] ?? 'X'];
  return [signal.kind === 'state' ? (DOING[value] ?? '') : busBits(value, bitsOf(signal))];
}
