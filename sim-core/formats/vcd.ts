/** Waveforms as a value change dump, IEEE 1364-2005 clause 18: what a wave viewer reads. Levels as four-state wires, voltages as reals. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';

/** One wire: its state from each time on; 0, 1, x or z, the first at the beginning. */
export interface VcdWire {
  readonly name: string;
  readonly states: ReadonlyArray<{ readonly time: number; readonly state: '0' | '1' | 'x' | 'z' }>;
}

/** Several wires as one value: its bits from each time on, the highest first; 0, 1, x or z. */
export interface VcdBus {
  readonly name: string;
  readonly bits: number;
  readonly states: ReadonlyArray<{ readonly time: number; readonly state: string }>;
}

/** One voltage, or one current, as it stood from each time on; its name in the dump ends in its unit. */
export interface VcdReal {
  readonly name: string;
  /** absent: volts */
  readonly unit?: 'volts' | 'amps';
  readonly values: ReadonlyArray<{ readonly time: number; readonly value: number }>;
}

export interface VcdModule {
  readonly name: string;
  readonly wires: readonly VcdWire[];
  readonly reals: readonly VcdReal[];
  readonly buses?: readonly VcdBus[];
}

/** Times are whole picoseconds, counted from the first one. */
const TICK = 1e-12;

/** Codes of printable characters ! to ~, the shortest first. */
function codeOf(index: number): string {
  const least = 33;
  const base = 94;
  const head = Math.floor(index / base);
  return (head === 0 ? '' : codeOf(head - 1)) + String.fromCharCode(least + (index % base));
}

/** Names of IEEE 1364 are letters, digits, _ and $; what is active low is marked by a trailing _n. */
const plainName = (name: string): string => {
  const low = name.startsWith('/');
  const letters = (low ? `${name.slice(1)}_n` : name).replace(/[^A-Za-z0-9_$]/g, '_');
  return /^[A-Za-z_]/.test(letters) ? letters : `_${letters}`;
};

/** The name, or with a number behind it if something else in its scope is called so. */
function uniqueIn(taken: Set<string>, name: string): string {
  let unique = name;
  for (let k = 2; taken.has(unique); k++) unique = `${name}_${k}`;
  taken.add(unique);
  return unique;
}

interface VcdChange {
  readonly tick: number;
  readonly text: string;
  readonly code: string;
}

/** The declarations of a module, and what happens to what it declares. */
function declare(module: VcdModule, from: number, nextCode: () => string, changes: VcdChange[]): string[] {
  const names = new Set<string>();
  const tickOf = (time: number) => Math.round((time - from) / TICK);
  const lines: string[] = [];
  for (const { name, states } of module.wires) {
    const code = nextCode();
    lines.push(`$var wire 1 ${code} ${uniqueIn(names, plainName(name))} $end`);
    for (const { time, state } of states) changes.push({ tick: tickOf(time), text: `${state}${code}`, code });
  }
  for (const { name, bits, states } of module.buses ?? []) {
    const code = nextCode();
    lines.push(`$var wire ${bits} ${code} ${uniqueIn(names, plainName(name))} [${bits - 1}:0] $end`);
    for (const { time, state } of states) changes.push({ tick: tickOf(time), text: `b${state} ${code}`, code });
  }
  for (const { name, unit = 'volts', values } of module.reals) {
    const code = nextCode();
    lines.push(`$var real 64 ${code} ${uniqueIn(names, `${plainName(name)}_${unit}`)} $end`);
    for (const { time, value } of values) changes.push({ tick: tickOf(time), text: `r${value} ${code}`, code });
  }
  return lines;
}

/** from: the time that becomes 0 [s]. until: the dump ends there. comments: for whoever reads the text. */
export function writeVcd(modules: readonly VcdModule[], from: number, until = from, comments: readonly string[] = []): Outcome<string> {
  const changes: VcdChange[] = [];
  const head = comments.map((text) => `$comment ${text} $end`);
  const scopes = new Set<string>();
  let signals = 0;
  for (const module of modules) {
    const lines = declare(module, from, () => codeOf(signals++), changes);
    head.push(`$scope module ${uniqueIn(scopes, plainName(module.name))} $end`, ...lines, '$upscope $end');
  }
  const early = changes.find((c) => c.tick < 0);
  if (early) return failed('trace/too-early', 'from', `A change is ${-early.tick} ps before the beginning of the dump. Begin it earlier.`);
  // of several changes of one signal at one moment the last one holds
  const byTick = new Map<number, Map<string, string>>();
  for (const { tick, code, text } of changes) {
    const at = byTick.get(tick) ?? new Map<string, string>();
    at.delete(code);
    byTick.set(tick, at.set(code, text));
  }
  const begin = byTick.get(0) ?? new Map<string, string>();
  byTick.delete(0);
  const body = [...byTick].sort(([a], [b]) => a - b).flatMap(([tick, at]) => [`#${tick}`, ...at.values()]);
  const end = Math.round((until - from) / TICK);
  if (end > Math.max(0, ...byTick.keys())) body.push(`#${end}`);
  return done(
    [
      '$version Lampwright $end',
      '$timescale 1 ps $end',
      ...head,
      '$enddefinitions $end',
      '#0',
      '$dumpvars',
      ...begin.values(),
      '$end',
      ...body,
      '',
    ].join('\n'),
  );
}
