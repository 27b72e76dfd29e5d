/** One question asked of seeded cases: of a few in the tests, of thousands in `npm run trials`, which prints how they came out. */
import fc from 'fast-check';
import { expect, test } from 'vitest';

/** How one case came out: a word or two, by which it is counted, and figures. */
export type Result = { readonly kind: string } & Readonly<Record<string, string | number | undefined>>;

export interface Trial<T> {
  readonly cases: fc.Arbitrary<T>;
  /** how many seeds, from 1 on: in the tests, and in the trials */
  readonly sample: number;
  readonly full: number;
  /** what must hold of all results together */
  readonly together?: (results: readonly Result[]) => void;
}

interface Failure {
  readonly seed: number;
  readonly error: unknown;
}

const FULL = process.env.TRIALS === 'full';
/** More failures than these tell nothing new. */
const ENOUGH = 20;
/** After so many cases it is told how far a long trial has come. */
const TOLD_EVERY = 250;

const whole = (name: string, otherwise: number): number => {
  const value = Number(process.env[name] ?? otherwise);
  if (!Number.isInteger(value) || value < 1) throw new Error(`${name}=${process.env[name]}: give a whole number from 1 on`);
  return value;
};

/** A test that asks of every case; what it asks throws where the answer is wrong. The same seed makes the same case. */
export function trial<T>(name: string, { cases, sample, full, together }: Trial<T>, ask: (drawn: T, seed: number) => Result): void {
  test(name, () => {
    const first = FULL ? whole('FROM', 1) : 1;
    const beyond = first + (FULL ? whole('COUNT', full) : sample);
    const begun = performance.now();
    const results: Result[] = [];
    const failures: Failure[] = [];
    for (let seed = first; seed < beyond && failures.length < ENOUGH; seed++) {
      const [drawn] = fc.sample(cases, { seed, numRuns: 1 });
      try {
        results.push(ask(drawn as T, seed));
      } catch (error) {
        failures.push({ seed, error });
      }
      if (FULL && seed % TOLD_EVERY === 0) console.log(`seeds ${first} to ${seed}: ${failures.length} failures`);
    }
    if (FULL) console.log(report(expect.getState().currentTestName ?? name, results, failures, (performance.now() - begun) / 1000));
    const [worst] = failures;
    if (worst) {
      const seeds = failures.map((f) => f.seed).join(', ');
      throw new Error(`${failures.length} of ${results.length + failures.length} cases fail, seeds ${seeds}. The first: ${worst.error}`, {
        cause: worst.error,
      });
    }
    expect(results.length).toBeGreaterThan(0);
    // of fewer it says nothing
    if (results.length >= sample) together?.(results);
  });
}

/** A line for each kind of result: how many, and of each figure the least, the mean and the most. */
function report(name: string, results: readonly Result[], failures: readonly Failure[], seconds: number): string {
  const kinds = new Map<string, Result[]>();
  for (const r of results) kinds.set(r.kind, [...(kinds.get(r.kind) ?? []), r]);
  const figures = [...new Set(results.flatMap((r) => Object.keys(r)))].filter((f) => f !== 'kind');
  const span = (of: readonly Result[], figure: string): string => {
    const values = of.map((r) => r[figure]).filter((v): v is number => typeof v === 'number');
    if (values.length === 0) return '';
    const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
    return [Math.min(...values), mean, Math.max(...values)].map((v) => Number(v.toPrecision(3))).join(' / ');
  };
  const rows = [
    ['result', 'cases', ...figures.map((f) => `${f}: least / mean / most`)],
    ...[...kinds].sort(([, a], [, b]) => b.length - a.length).map(([k, of]) => [k, `${of.length}`, ...figures.map((f) => span(of, f))]),
    ...(failures.length > 0 ? [['FAILED', `${failures.length}`, `seeds ${failures.map((f) => f.seed).join(', ')}`]] : []),
  ];
  const widths = rows[0]?.map((_, column) => Math.max(...rows.map((r) => (r[column] ?? '').length))) ?? [];
  const lines = rows.map((r) => `  ${r.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('  ')}`.trimEnd());
  return [`\n${name}: ${results.length + failures.length} cases in ${seconds.toFixed(1)} s`, ...lines].join('\n');
}
