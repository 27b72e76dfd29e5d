/** What varies from one specimen to the next, and the mathematics of bounds at its edges: slopes, corners, what turns, what is drawn. */
import { describe, expect, test } from 'vitest';
import { memoryBench } from '../../sim-core/findings/example-benches.ts';
import { extremes, type FigureFunction, sensitivities, type Variable } from '../../sim-core/tolerance/methods.ts';
import { draw, summarise } from '../../sim-core/tolerance/monte-carlo.ts';
import { forwardSpread, specimensAt, thresholdOf, tolerancesOf } from '../../sim-core/tolerance/tolerances.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { start } from '../support/bench.ts';

const bounds = (nominal: number, least: number, most: number): Variable => ({ nominal, least, most });

describe('what varies on a bench', () => {
  const READS = 'wire WOE from j16 to -j9\nwire WWE from j15 to +j9\n';
  const varies = (more: string, near?: string) => {
    const { circuit } = start(memoryBench(READS + more));
    const leg = near === undefined ? undefined : circuit.placed.get(near)?.legs[0];
    const blocks = new Set(leg ? [circuit.partition.of[circuit.nodeOf(leg)] ?? -1] : circuit.partition.of);
    return tolerancesOf(circuit, blocks).map(({ part, figure, least, nominal, most }) => [
      part,
      figure,
      ...[least, nominal, most].map((v) => Number(v.toPrecision(6))),
    ]);
  };

  test('are resistors, capacitors and the supply by their tolerance, LEDs by their forward voltage, chips by their strength', () => {
    const all = varies('led LED1 from g23 to g30\nresistor R1 1k from f30 to -j20 with tolerance 2\ncapacitor C8 100n from i30 to -j22');
    expect(all).toEqual([
      ['PS1', 'volts', 4.5, 5, 5.5],
      ['U1', 'drive', 0, 1, 1],
      // S40: standard red 1.7 V typical, bright red 2.5 V at most
      ['LED1', 'forward', 1.7, 1.9, 2.5],
      ['R1', 'ohms', 980, 1000, 1020],
      ['C8', 'farads', 9e-8, 1e-7, 1.1e-7],
    ]);
  });
  test('are only those that are joined to the place, and the supply', () => {
    const near = varies(
      'led LED1 from g23 to g30\nresistor R1 1k from f30 to -j20\nresistor R2 1k from a50 to a55\nresistor R3 1k from b50 to b55',
      'R2',
    );
    expect(near.map(([part]) => part)).toEqual(['PS1', 'R2', 'R3']);
  });
  test('is nothing that has no tolerance', () => {
    expect(varies('resistor R1 1k from a50 to a55 with tolerance 0', 'R1').map(([part]) => part)).toEqual(['PS1']);
  });
});

describe('an LED’s forward voltage at 10 mA', () => {
  const spread = (colour: string) => {
    const { circuit } = start(`board-30 B1\nled LED1 ${colour} from a5 to a9`);
    const { least, nominal, most } = forwardSpread(circuit.leds[0]!);
    return [least, Number(nominal.toPrecision(6)), most];
  };
  // SOURCES.md S40, S13; the lowest of amber, blue and white from memory
  test.each([
    ['red', 1.7, 1.9, 2.5],
    ['amber', 1.8, 2.0, 2.5],
    ['green', 1.9, 2.1, 2.5],
    ['blue', 2.8, 3.1, 4],
    ['white', 2.8, 3.1, 4],
  ])('%s lies from %d over %d to %d V', (colour, ...volts) => {
    expect(spread(colour)).toEqual(volts);
  });
});

test('figures of one part become one specimen: parameters together, what is read by name beside them', () => {
  const figure = (part: string, name: string, nominal: number) => ({ ...thresholdOf(part), figure: name, nominal });
  const made = specimensAt(
    [
      figure('R1', 'ohms', 1000),
      figure('U1', 'drive', 1),
      figure('U1', 'threshold', 0.5),
      figure('LED1', 'forward', 1.9),
      figure('U1', 'written', 5),
    ],
    [1100, 0.25, 1, 2.5],
  );
  expect([...made]).toEqual([
    ['R1', { params: { ohms: 1100 } }],
    ['U1', { drive: 0.25, threshold: 1, params: { written: 5 } }],
    ['LED1', { forward: expect.closeTo(0.6, 12) }],
  ]);
  expect(thresholdOf('U1')).toMatchObject({ part: 'U1', nominal: 0.5, least: 0, most: 1 });
});

describe('sensitivities', () => {
  test('are the slope at nominal and the swing from bound to bound', () => {
    const [s, none] = sensitivities(([x = 0]) => x * x, [bounds(3, 2, 5), bounds(1, 1, 1)]);
    expect(s?.slope).toBeCloseTo(6, 9);
    expect(s).toMatchObject({ swing: 21, monotone: true });
    expect(none).toEqual({ slope: 0, swing: 0, monotone: true });
  });
  test('see a turn in any quarter of the range, and in no rounding', () => {
    const peak =
      (at: number): FigureFunction =>
      ([x = 0]) =>
        -Math.abs(x - at);
    const monotone = (y: FigureFunction, care = {}) => sensitivities(y, [bounds(2, 0, 4)], care)[0]?.monotone;
    expect([0, 1, 2, 3, 4].map((at) => monotone(peak(at)))).toEqual([true, false, false, false, true]);
    expect([1, 2, 3].map((at) => monotone(peak(at), { pieces: 2 }))).toEqual([true, false, true]);
    // down by 1e-10 of the largest in the last quarter: rounding; by 1e-8: a turn
    const dent =
      (by: number): FigureFunction =>
      ([x = 0]) =>
        x > 3 ? 3 - by : x;
    expect(monotone(dent(1e-10))).toBe(true);
    expect(monotone(dent(1e-8))).toBe(false);
    expect(monotone(dent(1e-3), { alike: 1e-2 })).toBe(true);
  });
});

describe('extremes', () => {
  test('of equals take the first corner, leave what does not vary, and have seen the middle', () => {
    const spike: FigureFunction = ([a = 0, b = 0]) => (a === 1 && b === 7 ? 5 : 1);
    expect(extremes(spike, [bounds(1, 0, 2), bounds(7, 7, 7)])).toEqual({
      nominal: 5,
      least: 1,
      most: 1,
      atLeast: [0, 7],
      atMost: [0, 7],
      by: 'corners',
      turning: [0],
      seen: { least: 1, most: 5 },
    });
  });
  test('of twelve variables try all corners, of thirteen they follow the signs', () => {
    const sum: FigureFunction = (x) => x.reduce((a, b) => a + b, 0);
    const some = (n: number) => Array.from({ length: n }, () => bounds(0, -1, 2));
    expect(extremes(sum, some(12))).toMatchObject({ by: 'corners', least: -12, most: 24 });
    expect(extremes(sum, some(13))).toMatchObject({ by: 'signs', least: -13, most: 26, turning: [] });
  });
  test('by signs go on to a neighbour while it is worse', () => {
    // neither of the two shows a way by itself
    const pair: FigureFunction = ([a = 0, b = 0, c = 0]) => a * b + c;
    const three = [bounds(0, -1, 1), bounds(0, -1, 1), bounds(0, -1, 1)];
    expect(extremes(pair, three, { mostCorners: 2 })).toMatchObject({ by: 'signs', least: -2, most: 2 });
    expect(extremes(pair, three, { mostCorners: 3 })).toMatchObject({ by: 'corners', least: -2, most: 2 });
  });
});

describe('draws', () => {
  test('are those of Box and Muller from the numbers of the seed, cut at three sigma, each side by its own bound', () => {
    const random = makeRandom(5);
    const normal = (): number => {
      const u = 1 - random();
      return Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * random());
    };
    const expected = Array.from({ length: 40 }, () => {
      let z = normal();
      while (Math.abs(z) > 3) z = normal();
      return z < 0 ? 10 + (z / 3) * 1 : 10 + (z / 3) * 6;
    });
    expect(draw([bounds(10, 9, 16)], { runs: 40, seed: 5, shape: 'normal' }).flat()).toEqual(expected.map((v) => expect.closeTo(v, 12)));
    const flat = makeRandom(5);
    expect(draw([bounds(10, 9, 16)], { runs: 3, seed: 5, shape: 'uniform' }).flat()).toEqual([0, 1, 2].map(() => 9 + 7 * flat()));
  });
  test('are summed up by mean, standard deviation of a sample, ends, and the share that fails', () => {
    expect(summarise([1, 2, 3, 4], (v) => v < 4)).toEqual({
      runs: 4,
      least: 1,
      most: 4,
      mean: 2.5,
      sigma: expect.closeTo(Math.sqrt(5 / 3), 12),
      failing: 0.25,
    });
    expect(summarise([7])).toMatchObject({ runs: 1, sigma: 0, failing: 0 });
    expect(summarise([1, 3])).toMatchObject({ sigma: expect.closeTo(Math.SQRT2, 12) });
  });
});
