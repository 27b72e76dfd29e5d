/** A margin judged by each method on figures whose worst value is known in closed form: what varies, what is left out, when the method is called unfit. */
import { describe, expect, test } from 'vitest';
import type { ExperimentReading } from '../../sim-core/tolerance/experiment.ts';
import { evaluateMargin, type Method } from '../../sim-core/tolerance/margin-evaluation.ts';
import type { MarginQuery } from '../../sim-core/tolerance/margin-query.ts';
import type { Tolerance } from '../../sim-core/tolerance/tolerances.ts';

const about = (part: string, nominal: number, by: number): Tolerance => ({
  part,
  figure: 'ohms',
  unit: 'Ω',
  source: `sheet of ${part}`,
  nominal,
  least: nominal - by,
  most: nominal + by,
});

type Formula = (x: Readonly<Record<string, number>>) => number | undefined;

/** A question whose figure is a formula of its parts' values. */
function query(formula: Formula, spreads: readonly Tolerance[], must: 'at-least' | 'at-most', limit: number): MarginQuery {
  const nominal = Object.fromEntries(spreads.map((s) => [s.part, s.nominal]));
  return {
    what: 'led-current',
    at: { kind: 'led', id: 'LED1' },
    unit: 'A',
    must,
    limit,
    source: 'a sheet',
    spreads,
    drawn: spreads,
    read: (seen) => (seen as unknown as { y: number }).y,
    trial(moved, values) {
      const y = formula({ ...nominal, ...Object.fromEntries(moved.map((s, i) => [s.part, values[i] ?? s.nominal])) });
      return y === undefined ? undefined : ({ y } as unknown as ExperimentReading);
    },
  };
}

const judged = (method: Method, formula: Formula, spreads: readonly Tolerance[], must: 'at-least' | 'at-most' = 'at-least', limit = 1) =>
  evaluateMargin(query(formula, spreads, must, limit), method, { seed: 1, runs: 59 });

const [A, B] = [about('R1', 10, 1), about('R2', 20, 4)];
const sum: Formula = ({ R1 = 0, R2 = 0 }) => R1 + R2;

describe('a worst corner that no single step leads to', () => {
  /** Every part moves the figure by a hundredth; at one corner, two steps from where the sensitivities point, it falls by five. */
  const hidden =
    (n: number): Formula =>
    (x) => {
      const values = Array.from({ length: n }, (_, i) => x[`R${i + 1}`] ?? 0);
      const there = values.every((v, i) => v === (i < 2 ? 11 : 9));
      return 10 + 0.01 * values.reduce((a, b) => a + b, 0) - (there ? 5 : 0);
    };
  const spreads = (n: number) => Array.from({ length: n }, (_, i) => about(`R${i + 1}`, 10, 1));
  test('is found among four parts, where all corners are tried, and not among five', () => {
    expect(judged('worst', hidden(4), spreads(4)).worst).toBeCloseTo(10 + 0.01 * 40 - 5, 9);
    expect(judged('worst', hidden(5), spreads(5)).worst).toBeCloseTo(10 + 0.01 * 45, 9);
  });
});

test('a figure that nothing moves is not bent: what the sensitivities predict at the worst corner is what is there', () => {
  const still = judged('rss', () => 2, [A, B]);
  expect(still.worst).toBe(2);
  expect(still).not.toHaveProperty('bent');
});

describe('the worst case of a sum', () => {
  test('has every part at its harmful bound, and names the one that moves it most', () => {
    const low = judged('worst', sum, [A, B], 'at-least', 24);
    expect(low).toMatchObject({ nominal: 30, worst: 25, limit: 24, holds: true, turning: [], must: 'at-least', source: 'a sheet' });
    expect(low.dominant).toEqual({ part: 'R2', figure: 'ohms', unit: 'Ω', nominal: 20, value: 16, share: 0.8, source: 'sheet of R2' });
    const high = judged('worst', sum, [A, B], 'at-most', 34);
    expect(high).toMatchObject({ worst: 35, holds: false, dominant: { part: 'R2', value: 24, share: 0.8 } });
  });

  test('keeps a limit that it just reaches', () => {
    expect(judged('worst', sum, [A, B], 'at-least', 25).holds).toBe(true);
    expect(judged('worst', sum, [A, B], 'at-least', 25.001).holds).toBe(false);
    expect(judged('worst', sum, [A, B], 'at-most', 35).holds).toBe(true);
    expect(judged('worst', sum, [A, B], 'at-most', 34.999).holds).toBe(false);
    // so too where the limit is below zero
    expect(judged('worst', ({ R1 = 0 }) => -R1, [A], 'at-least', -11).holds).toBe(true);
    expect(judged('worst', ({ R1 = 0 }) => -R1, [A], 'at-least', -10.9).holds).toBe(false);
  });

  test('names the first of equal parts, and none where nothing moves it', () => {
    expect(judged('worst', sum, [A, about('R2', 20, 1)]).dominant).toMatchObject({ part: 'R1', share: 0.5 });
    expect(judged('worst', () => 7, [A, B])).not.toHaveProperty('dominant');
    expect(judged('worst', () => 7, [A, B])).toMatchObject({ nominal: 7, worst: 7 });
    expect(judged('worst', () => 7, [])).not.toHaveProperty('dominant');
  });

  test('leaves a part nominal that by itself moves the figure by a hundred-thousandth or less', () => {
    const faint =
      (share: number): Formula =>
      ({ R1 = 0, R2 = 0 }) =>
        10 * R1 + ((R2 - 20) / 4) * 100 * share;
    // 100 nominal; R1 brings 10, R2 nine or eleven millionths of a hundred
    expect(judged('worst', faint(0.9e-5), [A, B]).worst).toBe(90);
    expect(judged('worst', faint(1.1e-5), [A, B]).worst).toBeCloseTo(90 - 1.1e-3, 9);
    // either bound counts
    const oneWay =
      (side: 1 | -1): Formula =>
      ({ R1 = 0, R2 = 0 }) =>
        10 * R1 - Math.max(0, side * (R2 - 20));
    expect(judged('worst', oneWay(1), [A, B]).worst).toBe(86);
    expect(judged('worst', oneWay(-1), [A, B]).worst).toBe(86);
  });

  test('of four parts comes from all corners, also where no part alone shows the way', () => {
    const four = ['R1', 'R2', 'R3', 'R4'].map((id) => about(id, 1, 1));
    // −1 where an odd number of the four is low; each alone has no effect, so it has a small one of its own besides
    const parity: Formula = (x) =>
      10 +
      four.reduce((p, { part }) => p * ((x[part] ?? 0) - 1), 1) +
      1e-2 * (x.R1 ?? 0) +
      four.reduce((s, { part }) => s + 1e-2 * (x[part] ?? 0), 0);
    expect(judged('worst', parity, four).worst).toBeLessThan(9.1);
  });

  test('a figure that turns inside the bounds is said to, and its worst point inside counts', () => {
    const hump = judged('worst', ({ R1 = 0 }) => 10 - (R1 - 10) ** 2, [about('R1', 10, 2)], 'at-most', 8);
    expect(hump).toMatchObject({ nominal: 10, worst: 10, turning: ['R1.ohms'], holds: false });
    const dent = judged('worst', ({ R1 = 0 }) => 10 + (R1 - 10) ** 2, [about('R1', 10, 2)], 'at-least', 8);
    expect(dent).toMatchObject({ nominal: 10, worst: 10, turning: ['R1.ohms'], holds: true });
  });

  test('a bench that cannot be built keeps nothing', () => {
    const lost = judged('worst', ({ R1 = 0 }) => (R1 < 10 ? undefined : R1), [A]);
    expect(lost.holds).toBe(false);
  });
});

describe('root-sum-square', () => {
  test('adds squares of what is random, and gives each part its share of them', () => {
    const rss = judged('rss', sum, [about('R1', 10, 3), about('R2', 20, 4)], 'at-least', 25);
    expect(rss.worst).toBeCloseTo(25, 12);
    expect(rss).not.toHaveProperty('bent');
    // 9 and 16 of 25, in units of 5
    expect(rss.dominant).toMatchObject({ part: 'R2', value: 16, share: expect.closeTo(0.64, 12) });
    expect(judged('rss', sum, [about('R1', 10, 3), about('R2', 20, 4)], 'at-most', 35).worst).toBeCloseTo(35, 12);
    expect(judged('rss', ({ R1 = 0, R2 = 0 }) => R1 - R2, [about('R1', 10, 3), about('R2', 20, 4)], 'at-most', 1).dominant).toMatchObject({
      part: 'R2',
      value: 16,
    });
  });

  test('adds what is biased in full, on its own side', () => {
    const biased: Tolerance = { ...about('R1', 10, 1), least: 7 };
    const rss = judged('rss', ({ R1 = 0 }) => R1, [biased]);
    expect(rss.worst).toBeCloseTo(7, 12);
    expect(judged('rss', ({ R1 = 0 }) => R1, [biased], 'at-most', 12).worst).toBeCloseTo(11, 12);
    // 1 of random and 2 of bias against 2.5 of random alone
    const [first, second] = [{ ...biased }, about('R2', 20, 1.5)];
    expect(judged('rss', sum, [first, second]).dominant).toMatchObject({ part: 'R1' });
  });

  /** y = 10 + x + k·x² over x = ±1: at the harmful end the sensitivities foretell 9 (or 11), and k more is so */
  const bowed =
    (k: number): Formula =>
    ({ R1 = 0 }) =>
      10 + (R1 - 10) + k * (R1 - 10) ** 2;

  test('is called unfit once the figure at the harmful corner is off by more than a fifth of the way there', () => {
    // down: k against 0.2·(1 − k)
    expect(judged('rss', bowed(0.16), [A])).not.toHaveProperty('bent');
    expect(judged('rss', bowed(0.17), [A])).toMatchObject({ bent: true });
    expect(judged('rss', bowed(-0.24), [A])).not.toHaveProperty('bent');
    expect(judged('rss', bowed(-0.26), [A])).toMatchObject({ bent: true });
    // up: k against 0.2·(1 + k)
    expect(judged('rss', bowed(0.24), [A], 'at-most', 20)).not.toHaveProperty('bent');
    expect(judged('rss', bowed(0.26), [A], 'at-most', 20)).toMatchObject({ bent: true });
  });

  test('never says worse than all parts at their harmful bounds together', () => {
    expect(judged('rss', bowed(0.5), [A]).worst).toBeCloseTo(9.5, 12);
    expect(judged('rss', bowed(-0.5), [A], 'at-most', 20).worst).toBeCloseTo(10.5, 12);
    // and what the sensitivities foretell where that is nearer
    expect(judged('rss', bowed(-0.1), [A]).worst).toBeCloseTo(9, 12);
    expect(judged('rss', bowed(0.1), [A], 'at-most', 20).worst).toBeCloseTo(11, 12);
  });
});

describe('chance', () => {
  test('counts the specimens that fail, and says the worst of those drawn, inside what is possible', () => {
    const fair = judged('random', ({ R1 = 0 }) => R1, [A], 'at-least', 10);
    expect(fair).toMatchObject({ runs: 59, nominal: 10, holds: false, turning: [] });
    // half of a symmetric draw lies below its middle: 59 tries, five sigma are 19
    expect(Math.abs((fair.failing ?? 0) * 59 - 29.5)).toBeLessThan(19);
    expect(fair.worst).toBeGreaterThanOrEqual(9);
    expect(fair.worst).toBeLessThan(9.7);
    const up = judged('random', ({ R1 = 0 }) => R1, [A], 'at-most', 11);
    expect(up).toMatchObject({ failing: 0, holds: true });
    expect(up.worst).toBeGreaterThan(10.3);
    expect(up.worst).toBeLessThanOrEqual(11);
  });

  test('names the part that matters most by itself, at its harmful bound', () => {
    expect(judged('random', sum, [A, B]).dominant).toMatchObject({ part: 'R2', value: 16, share: 0.8 });
    expect(judged('random', sum, [A, B], 'at-most', 99).dominant).toMatchObject({ part: 'R2', value: 24, share: 0.8 });
    expect(judged('random', ({ R1 = 0, R2 = 0 }) => R1 - R2, [A, B]).dominant).toMatchObject({ part: 'R2', value: 24 });
  });
});
