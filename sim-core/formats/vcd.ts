/** Waveforms as a value change dump, IEEE 1364-2005 clause 18: what a wave viewer reads. Levels as four-state wires, voltages as reals. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';

/** One wire: its state from each time on; 0, 1, x or z, the first at the beginning. */
export interface VcdWire {
  readonly name: string;
  readonly states: ReadonlyArray<{ readonly time: number; readonly state: '0' | '1' | 'x' | 'z' }>;
}

/** One voltage, as it stood from each time on; its name in the dump ends in _volts. */
export interface VcdReal {
  readonly name: string;
  readonly values: ReadonlyArray<{ readonly time: number; readonly value: number }>;
}

export interface VcdModule {
  readonly name: string;
  readonly wires: readonly VcdWire[];
  readonly reals: readonly VcdReal[];
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

/** from: the time that becomes 0 [s]. */
export function writeVcd(modules: readonly VcdModule[], from: number): Outcome<string> {
  const changes: { tick: number; text: string; code: string }[] = [];
  const head: string[] = [];
  let signals = 0;
  for (const module of modules) {
    head.push(`$scope module ${plainName(module.name)} $end`);
    for (const { name, states } of module.wires) {
      const code = codeOf(signals++);
      head.push(`$var wire 1 ${code} ${plainName(name)} $end`);
      for (const { time, state } of states) changes.push({ tick: Math.round((time - from) / TICK), text: `${state}${code}`, code });
    }
    for (const { name, values } of module.reals) {
      const code = codeOf(signals++);
      head.push(`$var real 64 ${code} ${plainName(name)}_volts $end`);
      for (const { time, value } of values) changes.push({ tick: Math.round((time - from) / TICK), text: `r${value} ${code}`, code });
    }
    head.push('$upscope $end');
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
