/** Figures in the sentences of findings, over benches that chance puts together: none that no meter shows, none beside a limit that it keeps; and the same sentences in any order of the file. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { dryRun, type Finding, findingsNow, groupAlike, plain, sayFinding } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';
import { randomBench } from '../support/random-bench.ts';
import { randomMachine } from '../support/random-machine.ts';
import { shuffled } from '../support/shuffled.ts';

const inWords = (findings: readonly Finding[], plan: Plan): string[] => groupAlike(findings).map((f) => plain(sayFinding(f, plan)));
const sentences = (plan: Plan): string[] => inWords(findingsNow(start(plan, { still: true, bounce: false })), plan);

const SCALE: Readonly<Record<string, number>> = { f: 1e-15, p: 1e-12, n: 1e-9, µ: 1e-6, m: 1e-3, '': 1, k: 1e3, M: 1e6, G: 1e9, T: 1e12 };
const FIGURE = '([−-]?[\\d.]+) ([fpnµmkMGT]?)(A|V|W|s|Ω|F)\\b';
interface Figure {
  readonly value: number;
  readonly unit: string;
}
const figure = (digits = '', prefix = '', unit = ''): Figure => ({ value: Number(digits.replace('−', '-')) * SCALE[prefix]!, unit });
const figuresIn = (text: string): Figure[] => [...text.matchAll(new RegExp(FIGURE, 'gu'))].map((m) => figure(m[1], m[2], m[3]));

/** Beyond these no sentence of a bench of 5 V with coils means anything to a person. */
const MOST = { V: 100e3, A: 100, W: 10e3 } as const;
/** A current that is said and is less is noise of the solver: no meter shows it, no sheet gives it [A]. */
const LEAST_AMPS = 1e-9;

const senseless = (text: string): boolean =>
  figuresIn(text).some(
    ({ value, unit }) =>
      Math.abs(value) > (MOST[unit as keyof typeof MOST] ?? Number.POSITIVE_INFINITY) ||
      (unit === 'A' && value !== 0 && Math.abs(value) < LEAST_AMPS),
  );

/** "31 mA (limit 30 mA)", "4 V (at least 4.5 V)": the figure must be on the side that the sentence complains of. A supply at its limit is at it. */
function againstItself(text: string): boolean {
  const beside = new RegExp(`${FIGURE}[^.;()]*\\((limit|rated|low is up to|at least|high is from|high from) ${FIGURE}`, 'gu');
  return [...text.matchAll(beside)].some((m) => {
    const [is, limit] = [figure(m[1], m[2], m[3]), figure(m[5], m[6], m[7])];
    if (is.unit !== limit.unit) return false;
    if (m[4] === 'at least' || m[4]?.startsWith('high')) return is.value >= limit.value;
    return Math.abs(is.value) < limit.value || (Math.abs(is.value) === limit.value && !/current limit|shorted|shorts/.test(text));
  });
}

test('the checks of this file see what they look for', () => {
  expect(senseless('It is at 3.2 MV.')).toBe(true);
  expect(senseless('It draws 4.1 fA.')).toBe(true);
  expect(senseless('It draws 0 A, and leakage of up to 100 nA at 3 V through 1 GΩ.')).toBe(false);
  expect(againstItself('LED1 draws 10 mA (limit 10 mA).')).toBe(true);
  expect(againstItself('LED1 draws 9 mA (limit 10 mA).')).toBe(true);
  expect(againstItself('LED1 draws 31 mA (limit 30 mA).')).toBe(false);
  expect(againstItself('It has 4.5 V (at least 4.5 V).')).toBe(true);
  expect(againstItself('It has 4 V (at least 4.5 V).')).toBe(false);
});

const anyBench = fc.oneof(randomBench(5, 80), randomMachine(1, 4));
test('no sentence of any bench has a senseless figure or one against its own limit, and the order of the file changes none', () => {
  let count = 0;
  fc.assert(
    fc.property(anyBench, fc.integer({ min: 1, max: 1e6 }), (plan, seed) => {
      const said = sentences(plan);
      count += said.length;
      expect(said.filter(senseless)).toEqual([]);
      expect(said.filter(againstItself)).toEqual([]);
      expect(sentences(shuffled(plan, seed))).toEqual(said);
    }),
    { numRuns: 60, seed: 13 },
  );
  expect(count).toBeGreaterThan(200);
});

test.each(['greenhouse-dark-mister', 'greenhouse-dim-grow-light', 'greenhouse-blank'])(
  'the check of %s says the same in any order of its file',
  (id) => {
    const plan = demoPlan(id)!;
    const said = (p: Plan) => {
      const found = dryRun(p);
      return found.ok ? inWords(found.value, p) : [found.failure.says];
    };
    const once = said(plan);
    expect(once.length).toBeGreaterThan(0);
    expect(once.filter((s) => senseless(s) || againstItself(s))).toEqual([]);
    expect(said(shuffled(plan, 7))).toEqual(once);
  },
);
