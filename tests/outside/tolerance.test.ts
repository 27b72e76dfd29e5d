/**
 * Worst-case methods against worked examples. Those marked "derived" are closed forms worked out by hand from the formulas of SOURCES.md
 * (methods: ECSS-Q-HB-30-01A's titles, equations from memory); the counts 59 and 93 are Wilks 1941's.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Margin, type Method, marginsOf, readBenchText } from '../../sim-core/index.ts';
import { junctionFor } from '../../sim-core/parts/figures/junctions.ts';
import { extremes, type FigureFunction, rootSumSquare, sensitivities, type Variable } from '../../sim-core/tolerance/methods.ts';
import { confidence, draw, monteCarlo } from '../../sim-core/tolerance/monte-carlo.ts';
import { LED_ON_D0, MEMORY, writeNetwork } from '../support/bench.ts';

/** nominal ± percent */
const about = (nominal: number, percent: number): Variable => ({
  nominal,
  least: nominal * (1 - percent / 100),
  most: nominal * (1 + percent / 100),
});
const bounds = (nominal: number, least: number, most: number): Variable => ({ nominal, least, most });
const half = ({ least, most }: { least: number; most: number }) => (most - least) / 2;

describe('worked examples', () => {
  // derived, SOURCES.md "Worst case": t = RC·ln(V/(V − v)), R 1 kΩ ± 5 %, C 1 nF ± 10 %, V 5 V ± 10 %
  describe('a write pulse of 1 kΩ ± 5 % and 1 nF ± 10 % at 5 V ± 10 %', () => {
    const parts = [about(1e3, 5), about(1e-9, 10), about(5, 10)];
    const below =
      (v: number): FigureFunction =>
      ([r = 0, c = 0, volts = 0]) =>
        r * c * Math.log(volts / (volts - v));
    test('is surely low for 134 ns at least, where R and C are least and V is most', () => {
      const { least, atLeast, by, turning } = extremes(below(0.8), parts);
      expect(least * 1e9).toBeCloseTo(134.4, 1);
      expect(Math.round(least * 1e9)).toBe(134);
      expect(atLeast).toEqual([parts[0]!.least, parts[1]!.least, parts[2]!.most]);
      expect(by).toBe('corners');
      expect(turning).toEqual([]);
    });
    test('may be low for 679 ns at most, where R and C are most and V is least', () => {
      const { most, atMost } = extremes(below(2.0), parts);
      expect(Math.round(most * 1e9)).toBe(679);
      expect(atMost).toEqual([parts[0]!.most, parts[1]!.most, parts[2]!.least]);
    });
    test('R and C alone make ± 11.2 % by root-sum-square, √(5² + 10²)', () => {
      const rss = rootSumSquare(below(0.8), [parts[0]!, parts[1]!, bounds(5, 5, 5)]);
      expect((100 * half(rss)) / rss.nominal).toBeCloseTo(11.2, 1);
      expect(half(rss) / rss.nominal).toBeCloseTo(Math.hypot(0.05, 0.1), 6);
    });
  });

  test('a divider of two 10 kΩ ± 5 % at 5 V: 2.375 to 2.625 V by corners, 2.5 V ± 88.4 mV by root-sum-square (derived)', () => {
    const y: FigureFunction = ([a = 0, b = 0]) => (5 * b) / (a + b);
    const parts = [about(1e4, 5), about(1e4, 5)];
    const worst = extremes(y, parts);
    // 5·9.5/(10.5 + 9.5) and 5·10.5/(9.5 + 10.5)
    expect(worst.least).toBeCloseTo(2.375, 12);
    expect(worst.most).toBeCloseTo(2.625, 12);
    // dV/dR = ∓5·R/(2R)² = ∓125 µV/Ω; 500 Ω each: 62.5 mV·√2
    expect(sensitivities(y, parts).map((s) => s.slope * 1e6)).toEqual([expect.closeTo(-125, 4), expect.closeTo(125, 4)]);
    expect(half(rootSumSquare(y, parts))).toBeCloseTo(0.0625 * Math.SQRT2, 6);
  });

  test('an LED of 1.9 V (1.7 to 2.5) behind 330 Ω ± 5 % at 5 V ± 10 %: 5.77 to 12.12 mA (derived)', () => {
    const y: FigureFunction = ([volts = 0, forward = 0, r = 0]) => (volts - forward) / r;
    const parts = [about(5, 10), bounds(1.9, 1.7, 2.5), about(330, 5)];
    const worst = extremes(y, parts);
    // (4.5 − 2.5)/346.5 and (5.5 − 1.7)/313.5
    expect(worst.least * 1e3).toBeCloseTo(5.772, 3);
    expect(worst.most * 1e3).toBeCloseTo(12.121, 3);
    // root-sum-square: 0.5 V/330 Ω, 0.2 V/330 Ω and 3.1 V·5 %/330 Ω are random; the LED's other 0.4 V is bias, downwards
    const rss = rootSumSquare(y, parts);
    const random = Math.hypot(0.5 / 330, 0.2 / 330, (3.1 / 330) * 0.05);
    expect(rss.most).toBeCloseTo(3.1 / 330 + random, 8);
    expect(rss.least).toBeCloseTo(3.1 / 330 - random - 0.4 / 330, 8);
  });

  test('ten resistors of 1 kΩ ± 5 % in series: ± 500 Ω by extreme value, ± 158 Ω by root-sum-square (derived, n against √n)', () => {
    const y: FigureFunction = (x) => x.reduce((a, b) => a + b, 0);
    const parts = Array.from({ length: 10 }, () => about(1e3, 5));
    expect(half(extremes(y, parts))).toBeCloseTo(500, 9);
    expect(half(rootSumSquare(y, parts))).toBeCloseTo(50 * Math.sqrt(10), 6);
  });

  test('a sum with 2 % of ageing, one way only, beside 5 % at random: the ageing adds in full (derived; S95: initial and ageing are summed)', () => {
    const aged: Variable = { nominal: 1000, least: 930, most: 1050, random: 50 };
    const rss = rootSumSquare(([a = 0, b = 0]) => a + b, [aged, aged]);
    expect(rss.most).toBeCloseTo(2000 + 50 * Math.SQRT2, 6);
    expect(rss.least).toBeCloseTo(2000 - 40 - 50 * Math.SQRT2, 6);
  });

  test('a pull-down of 10 kΩ ± 5 % under 10 µA of leakage rises to 0.105 V, 76 kΩ is the most for 0.8 V (derived)', () => {
    const drift = (ohms: number) => extremes(([r = 0, i = 0]) => r * i, [about(ohms, 5), bounds(0, -10e-6, 10e-6)]);
    expect(drift(10e3).most).toBeCloseTo(0.105, 12);
    expect(drift(76e3).most).toBeLessThan(0.8);
    expect(drift(77e3).most).toBeGreaterThan(0.8);
  });
});

describe('Monte Carlo', () => {
  test('59 runs speak for 95 % with a confidence of 0.951, 58 do not reach 0.95; both ends ask for 93 (Wilks 1941)', () => {
    expect(Math.floor(1000 * confidence(59, 0.95, 1))).toBe(951);
    expect(confidence(58, 0.95, 1)).toBeLessThan(0.95);
    expect(confidence(93, 0.95, 2)).toBeGreaterThanOrEqual(0.95);
    expect(confidence(92, 0.95, 2)).toBeLessThan(0.95);
  });

  test('the largest of 59 draws is passed by at most 5 % in about 95.1 % of a thousand tries', () => {
    const well = Array.from({ length: 1000 }, (_, seed) =>
      monteCarlo(([x = 0]) => x, [bounds(0.5, 0, 1)], { runs: 59, seed: seed * 7919 + 1, shape: 'uniform' }),
    ).filter((s) => s.most >= 0.95).length;
    // three sigma of a binomial: √(1000·0.951·0.049) = 6.8
    expect(Math.abs(well - 951)).toBeLessThan(21);
  });

  test('uniform draws have mean and sigma of a uniform distribution, normal ones those of a normal one cut at three sigma', () => {
    const of = (shape: 'uniform' | 'normal') => monteCarlo(([x = 0]) => x, [bounds(100, 90, 110)], { runs: 20_000, seed: 3, shape });
    const flat = of('uniform');
    expect(flat.mean).toBeCloseTo(100, 0);
    // width/√12
    expect(flat.sigma).toBeCloseTo(20 / Math.sqrt(12), 1);
    const bell = of('normal');
    expect(bell.mean).toBeCloseTo(100, 0);
    // √(1 − 2·3·φ(3)/(2Φ(3) − 1)) = 0.98658 of the sigma before the cut; φ(3) = 0.0044318, 2Φ(3) − 1 = 0.9973 (tables, from memory)
    expect(bell.sigma).toBeCloseTo((20 / 6) * Math.sqrt(1 - (6 * 0.0044318) / 0.9973), 1);
    expect(bell.least).toBeGreaterThanOrEqual(90);
    expect(bell.most).toBeLessThanOrEqual(110);
  });

  test('counts what fails: a quarter of a uniform figure lies below a quarter', () => {
    const { failing } = monteCarlo(
      ([x = 0]) => x,
      [bounds(0.5, 0, 1)],
      { runs: 20_000, seed: 5, shape: 'uniform' },
      (y) => y >= 0.25,
    );
    expect(failing).toBeCloseTo(0.25, 2);
  });

  test('is the same again for the same seed, another for another, and a longer run begins like a shorter one', () => {
    const some = (seed: number, runs = 20) => draw([about(1e3, 5), about(1e-9, 10)], { runs, seed, shape: 'normal' });
    expect(some(1)).toEqual(some(1));
    expect(some(1)).not.toEqual(some(2));
    expect(some(1, 40).slice(0, 20)).toEqual(some(1));
  });
});

describe('a figure that turns round inside its bounds', () => {
  // power from 1 V behind 1 kΩ into R: R/(1 kΩ + R)², greatest where R is 1 kΩ, and alike at 500 Ω and 2 kΩ (derived). SOURCES.md S97: extreme value
  // alone can miss the worst point where the figure is not monotone.
  const power: FigureFunction = ([r = 0]) => r / (1e3 + r) ** 2;
  const load = bounds(600, 500, 2e3);
  test('has its worst point inside: corners miss it, and say which variable turns and what was seen', () => {
    const worst = extremes(power, [load]);
    expect(worst.most * 1e6).toBeCloseTo(222.2, 1);
    expect(worst.turning).toEqual([0]);
    expect(worst.seen.most).toBeGreaterThan(worst.most * 1.05);
    expect(sensitivities(power, [load]).map((s) => s.monotone)).toEqual([false]);
    expect(monteCarlo(power, [load], { runs: 200, seed: 1, shape: 'uniform' }).most).toBeGreaterThan(worst.most * 1.1);
  });
  test('is noticed beside a corner too, where at nominal all looks monotone', () => {
    // at b = 0 nothing turns; at b = 2, where the greatest corners are, the figure is 6·(a − 1)²
    const y: FigureFunction = ([a = 0, b = 0]) => a * (2 - b) + 3 * b * (a - 1) ** 2;
    expect(sensitivities(y, [bounds(1, 0, 2), bounds(0, 0, 2)])[0]?.monotone).toBe(true);
    expect(extremes(y, [bounds(1, 0, 2), bounds(0, 0, 2)]).turning).toContain(0);
  });
});

describe('for any monotone figure', () => {
  /** k·Π xᵢ^pᵢ, monotone in every variable as long as all are positive */
  const figure = fc.array(fc.record({ power: fc.integer({ min: -2, max: 2 }), percent: fc.integer({ min: 0, max: 30 }) }), {
    minLength: 1,
    maxLength: 14,
  });
  const made = (terms: readonly { power: number; percent: number }[]): [FigureFunction, Variable[]] => [
    (x) => x.reduce((product, v, i) => product * v ** (terms[i]?.power ?? 0), 1),
    terms.map(({ percent }, i) => about(1 + i / 7, percent)),
  ];
  test('the worst case holds every draw, whatever the seed and the shape', () => {
    fc.assert(
      fc.property(figure, fc.integer(), fc.constantFrom('uniform', 'normal'), (terms, seed, shape) => {
        const [y, variables] = made(terms);
        const worst = extremes(y, variables, { mostCorners: 6 });
        const drawn = monteCarlo(y, variables, { runs: 59, seed, shape });
        expect(drawn.least).toBeGreaterThanOrEqual(worst.least * (1 - 1e-12));
        expect(drawn.most).toBeLessThanOrEqual(worst.most * (1 + 1e-12));
        expect(worst.turning).toEqual([]);
      }),
      { seed: 11, numRuns: 200 },
    );
  });
  test('signs of the sensitivities find the corners that trying all of them finds', () => {
    fc.assert(
      fc.property(figure, (terms) => {
        const [y, variables] = made(terms.slice(0, 8));
        const all = extremes(y, variables);
        const few = extremes(y, variables, { mostCorners: 0 });
        expect(few.least).toBeCloseTo(all.least, 9);
        expect(few.most).toBeCloseTo(all.most, 9);
      }),
      { seed: 12, numRuns: 100 },
    );
  });
});

/** The one margin of this kind. */
function margin(text: string, what: Margin['what'], method: Method = 'worst'): Margin {
  const plan = readBenchText(text);
  if (!plan.ok) throw new Error(plan.failure.says);
  const judged = marginsOf(plan.value, method);
  if (!judged.ok) throw new Error(judged.failure.says);
  const found = judged.value.filter((m) => m.what === what);
  expect(found).toHaveLength(1);
  return found[0]!;
}

describe('the same by simulation', () => {
  const WRITABLE = `${MEMORY}
    wire A1 black from a18 to -a17
    wire A2 black from a19 to -a18
    wire A3 red from i16 to +j20`;
  /** R 1 kΩ, C 1 nF and a bleeder of 100 kΩ that empties it between presses */
  const PULSE = WRITABLE + writeNetwork('1k', '1n').replace('R21 10k', 'R21 100k');
  /**
   * Below v, from R, C, supply and bleeder (derived). It begins above 0 by what the pin's 6 pF share with C when the contact closes, what the open contact's
   * 100 MΩ have left on C, and what falls across the closed contact's 0.3 Ω (0.1 Ω and the button's two bridges).
   */
  const below = (v: number, r: number, c: number, supply: number, bleeder: number) => {
    const rest = (supply * bleeder) / (bleeder + r);
    const tau = ((r * bleeder) / (r + bleeder)) * (c + 6e-12);
    const first = supply * (6e-12 / (c + 6e-12) + bleeder / 100e6 + 0.3 / r);
    return tau * Math.log((rest - first) / (rest - v));
  };

  test('the write pulse of the worked example is low for 134 ns guaranteed and 679 ns maximum, within 5 %; to 0.5 % with pin and discharge resistor', () => {
    const sure = margin(PULSE, 'pulse-width-guaranteed');
    expect(Math.abs(sure.worst / 134.4e-9 - 1)).toBeLessThan(0.05);
    expect(Math.abs(sure.worst / below(0.8, 950, 0.9e-9, 5.5, 105e3) - 1)).toBeLessThan(0.005);
    expect(sure).toMatchObject({ limit: 100e-9, holds: true, turning: [], button: 'SB1' });
    const maybe = margin(PULSE, 'pulse-width-maximum');
    expect(Math.abs(maybe.worst / 678.9e-9 - 1)).toBeLessThan(0.05);
    expect(Math.abs(maybe.worst / below(2.0, 1050, 1.1e-9, 4.5, 95e3) - 1)).toBeLessThan(0.005);
    expect(maybe).toMatchObject({ limit: 1e-6, holds: true });
  });
  test('by root-sum-square R and C alone make ± 11.2 % of it, within a tenth of that', () => {
    const sure = margin(PULSE.replace('bench-supply PS1', 'bench-supply PS1 with tolerance 0'), 'pulse-width-guaranteed', 'rss');
    expect((1 - sure.worst / sure.nominal) * 100).toBeGreaterThan(11.2 * 0.9);
    expect((1 - sure.worst / sure.nominal) * 100).toBeLessThan(11.2 * 1.1);
    expect(sure.dominant).toMatchObject({ part: 'C20', figure: 'farads' });
    // 10² of 5² + 10²
    expect(sure.dominant!.share).toBeCloseTo(0.8, 1);
  });
  test('names the part that matters most, and another once that one is better made', () => {
    const still = PULSE.replace('bench-supply PS1', 'bench-supply PS1 with tolerance 0');
    expect(margin(still, 'pulse-width-guaranteed').dominant).toMatchObject({ part: 'C20', value: expect.closeTo(0.9e-9, 15) });
    const better = still.replace('C20 1n from i15 to g5', 'C20 1n from i15 to g5 with tolerance 1');
    expect(margin(better, 'pulse-width-guaranteed').dominant).toMatchObject({ part: 'R20', value: 950 });
  });

  test('an LED behind 330 Ω ± 5 % at 5 V ± 10 %: its currents are those of its junction at the corners', () => {
    const bench = `
      board-30 B1
      bench-supply PS1 with ohms 1m
      wire W1 red from PS1.+ to a1
      wire W2 black from PS1.- to a9
      resistor R1 330 from b1 to b5
      led LED1 red from c5 to c9`;
    const { is, nvt, rs } = junctionFor('red');
    /** V = I·(R + rs) + nVt·ln(I/Is + 1) + shift, by halving */
    const amps = (volts: number, ohms: number, shift: number) => {
      let [low, high] = [0, 1];
      for (let i = 0; i < 200; i++) {
        const middle = (low + high) / 2;
        if (middle * (ohms + rs) + nvt * Math.log1p(middle / is) + shift < volts) low = middle;
        else high = middle;
      }
      return low;
    };
    // red, 1.9 V at 10 mA, here from 1.7 to 2.5 V
    expect(margin(bench, 'led-lit').worst / amps(4.5, 346.5, 0.6)).toBeCloseTo(1, 4);
    expect(margin(bench, 'led-current').worst / amps(5.5, 313.5, -0.2)).toBeCloseTo(1, 4);
    expect(margin(bench, 'led-lit').nominal / amps(5, 330, 0)).toBeCloseTo(1, 4);
  });

  test('a pull-down of 10 kΩ ± 5 % under 10 µA of leakage rises to 0.105 V', () => {
    const bench = `${WRITABLE.replace('wire A2 black from a19 to -a18', 'resistor R1 10k from a19 to -a18')}\nwire A4 red from i15 to +j13`;
    const low = margin(bench, 'level-low');
    expect(low.worst).toBeCloseTo(0.105, 4);
    expect(low).toMatchObject({ at: { id: 'U1.8' }, limit: 0.8, holds: true, dominant: { part: 'R1', value: 10_500 } });
    expect(margin(bench.replace('R1 10k', 'R1 77k'), 'level-low').holds).toBe(false);
    expect(margin(bench.replace('R1 10k', 'R1 76k'), 'level-low').holds).toBe(true);
  });

  test('chance gives nothing that the extremes do not hold, the same again for the same seed, and says how many of 59 fail', () => {
    const plan = readBenchText(PULSE + LED_ON_D0);
    if (!plan.ok) throw new Error(plan.failure.says);
    const judged = (method: Method, seed?: number) => {
      const answer = marginsOf(plan.value, method, seed);
      if (!answer.ok) throw new Error(answer.failure.says);
      return answer.value;
    };
    const worst = judged('worst');
    const random = judged('random', 2);
    expect(random.length).toBeGreaterThan(2);
    expect(random.map((m) => [m.what, m.at.id])).toEqual(worst.map((m) => [m.what, m.at.id]));
    for (const [i, m] of random.entries()) {
      const bound = worst[i]!.worst;
      if (m.must === 'at-least') expect(m.worst).toBeGreaterThanOrEqual(bound * (1 - 1e-3));
      else expect(m.worst).toBeLessThanOrEqual(bound * (1 + 1e-3));
      expect(m.runs).toBe(59);
      expect(m.holds).toBe(m.failing === 0);
    }
    expect(JSON.stringify(judged('random', 2))).toBe(JSON.stringify(random));
    expect(JSON.stringify(judged('random', 3))).not.toBe(JSON.stringify(random));
  });
});
