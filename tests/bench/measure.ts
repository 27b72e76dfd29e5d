/** How a piece of work is timed: warmed up, run several times, the median reported. */

/** Milliseconds of one run of `work`: the median of `runs` after `warm` that do not count. */
export function median(work: () => void, runs = 9, warm = 3): number {
  for (let i = 0; i < warm; i++) work();
  const times = Array.from({ length: runs }, () => {
    const t = performance.now();
    work();
    return performance.now() - t;
  });
  return middle(times);
}

/**
 * Several pieces of work, each many times, in turns, so that a machine that slows down slows all of them: milliseconds of one run of each, the medians
 * of `rounds` batches. times: how often each runs in one batch.
 */
export function inTurns(works: readonly { readonly work: () => void; readonly times: number }[], rounds: number): number[] {
  const batch = ({ work, times }: (typeof works)[number]): number => {
    const t = performance.now();
    for (let i = 0; i < times; i++) work();
    return (performance.now() - t) / times;
  };
  for (const w of works) batch(w);
  const measured = works.map((): number[] => []);
  for (let r = 0; r < rounds; r++) for (const [k, w] of works.entries()) measured[k]?.push(batch(w));
  return measured.map(middle);
}

export function middle(times: readonly number[]): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

export const share = (sorted: readonly number[], part: number): number =>
  [...sorted].sort((a, b) => a - b)[Math.floor(part * (sorted.length - 1))] ?? Number.NaN;

/** A table of the run's figures, columns padded. */
export function printTable(title: string, rows: readonly (readonly string[])[]): void {
  const width = rows[0]?.map((_, c) => Math.max(...rows.map((r) => r[c]?.length ?? 0))) ?? [];
  console.log(`\n${title}`);
  for (const row of rows)
    console.log(`  ${row.map((cell, c) => (c === 0 ? cell.padEnd(width[c] ?? 0) : cell.padStart(width[c] ?? 0))).join('   ')}`);
}

export const times = (ratio: number): string => `${ratio >= 10 ? ratio.toFixed(0) : ratio.toFixed(1)} ×`;
export const memories = (n: number): string => (n === 1 ? '1 memory' : `${n} memories`);
export const ms = (t: number): string => (t >= 100 ? t.toFixed(0) : t >= 1 ? t.toFixed(2) : t.toFixed(4));
