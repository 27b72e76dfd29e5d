/** How a piece of work is timed: warmed up, run several times, the median reported. A figure that is no number is never printed. */
import type { Outcome } from '../../shared/outcome.ts';

/** On a loaded machine the compiler, a thread of its own, is a second behind [ms]. */
export const WARM = 1000;

/** Milliseconds of one run of `work`: the median of `runs` after `warm` that do not count. */
export function median(work: () => void, runs = 9, warm = 3): number {
  for (let i = 0; i < warm; i++) work();
  return middle(Array.from({ length: runs }, () => took(work)));
}

/** Milliseconds of this one run. */
export function took(work: () => void): number {
  const t = performance.now();
  work();
  return performance.now() - t;
}

/** Work that is timed, so many times in a batch. */
interface Work {
  readonly work: () => void;
  readonly times: number;
}

/**
 * Several pieces of work, each many times, in turns, so that a machine that slows down slows all of them: milliseconds of one run of each, the medians
 * of `rounds` batches.
 */
export function inTurns<const W extends readonly Work[]>(works: W, rounds: number): { [K in keyof W]: number } {
  const batch = ({ work, times }: Work): number => {
    const t = performance.now();
    for (let i = 0; i < times; i++) work();
    return (performance.now() - t) / times;
  };
  for (const w of works) for (const t = performance.now(); performance.now() - t < WARM; ) batch(w);
  const measured = works.map((): number[] => []);
  for (let r = 0; r < rounds; r++) for (const [k, w] of works.entries()) measured[k]?.push(batch(w));
  return measured.map(middle) as { [K in keyof W]: number };
}

/** The value below which this part of them lies; throws if there is none. */
export function share(times: readonly number[], part: number): number {
  const at = [...times].sort((a, b) => a - b)[Math.floor(part * (times.length - 1))];
  if (at === undefined) throw new Error('nothing was measured');
  return at;
}

export const middle = (times: readonly number[]): number => share(times, 0.5);

/** What was done; throws with the sentence that says why it could not be. */
export function value<T>(done: Outcome<T>): T {
  if (!done.ok) throw new Error(done.failure.says);
  return done.value;
}

/** A table of the run's figures, columns padded. */
export function printTable(title: string, rows: readonly (readonly string[])[]): void {
  const width = rows[0]?.map((_, c) => Math.max(...rows.map((r) => r[c]?.length ?? 0))) ?? [];
  console.log(`\n${title}`);
  for (const row of rows)
    console.log(`  ${row.map((cell, c) => (c === 0 ? cell.padEnd(width[c] ?? 0) : cell.padStart(width[c] ?? 0))).join('   ')}`);
}

function figure(n: number, text: string): string {
  if (!Number.isFinite(n)) throw new Error(`${n} is no figure`);
  return text;
}

export const times = (ratio: number): string => figure(ratio, `${ratio >= 10 ? ratio.toFixed(0) : ratio.toFixed(1)} ×`);
export const memories = (n: number): string => (n === 1 ? '1 memory' : `${n} memories`);
export const ms = (t: number): string => figure(t, t >= 100 ? t.toFixed(0) : t >= 1 ? t.toFixed(2) : t.toFixed(4));
