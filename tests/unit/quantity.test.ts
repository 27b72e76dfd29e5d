/** Quantities: what is read and printed, what is refused and how. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseQuantity, siFormat } from '../../sim-core/units/quantity.ts';

const value = (text: string, unit?: string) => {
  const answer = parseQuantity(text, unit);
  return answer.ok ? answer.value : answer.failure.says;
};

describe('reading', () => {
  test.each<[string, number, string?]>([
    ['680', 680],
    ['4k7', 4700],
    ['4K7', 4700],
    ['47K3', 47300],
    ['4M7', 4.7e6],
    ['R47', 0.47],
    ['0R47', 0.47],
    ['4R7', 4.7, 'Ω'],
    ['1n', 1e-9],
    ['2n2', 2.2e-9, 'F'],
    ['10 µA', 10e-6, 'A'],
    ['10 uA', 10e-6],
    ['10\u03bcA', 10e-6],
    ['4.7 kΩ', 4700, 'Ω'],
    ['4.7 k\u2126', 4700, 'Ω'],
    ['330 ohm', 330, 'Ω'],
    ['330 R', 330, 'Ω'],
    ['4,7k', 4700],
    ['0,125', 0.125],
    ['1e-9', 1e-9],
    ['2.5E3 Ω', 2500],
    ['.5', 0.5],
    ['5 V', 5, 'V'],
    ['−3.3 V', -3.3, 'V'],
    ['2ms', 2e-3, 's'],
    ['2 m', 2e-3, 's'],
    ['1 F', 1, 'F'],
    ['1 fF', 1e-15, 'F'],
    [' 100 nF ', 100e-9, 'F'],
  ])('%s is %d', (text, expected, unit) => expect(value(text, unit)).toBe(expected));
});

describe('printing', () => {
  test.each<[number, string]>([
    [4700, '4.7 kΩ'],
    [0.47, '470 mΩ'],
    [999.96, '1 kΩ'],
    [1234.5, '1.23 kΩ'],
    [-0.0033, '−3.3 mΩ'],
    [0, '0 Ω'],
    [-6.93e-33, '0 Ω'],
    [Number.POSITIVE_INFINITY, '∞ Ω'],
  ])('%d is %s', (number, text) => expect(siFormat(number, 'Ω')).toBe(text));
});

describe('refusing', () => {
  test.each<[string, string, string?]>([
    ['', 'There is nothing here: give a number, for example 680, 4k7 or 10 µA.'],
    ['1,000', '1,000 may mean thousands or thousandths: write the number without a comma, or with a point.'],
    ['12,000,000.5', '12,000,000.5 may mean thousands or thousandths: write the number without a comma, or with a point.'],
    ['twelve', 'twelve is not a quantity: give a number, a prefix and a unit, for example 680, 4k7 or 10 µΩ.', 'Ω'],
    ['4k7k', '4k7k ends in "k", which is no unit known here: use Ω, F, H, V, A, s, W, Hz, or leave it out.'],
    ['1.2.3', '1.2.3 is not a quantity: give a number, a prefix and a unit, for example 680, 4k7 or 10 µA.'],
    ['10 mA', '10 mA is in A, but V is asked for here.', 'V'],
    ['4R7', '4R7 is in Ω, but F is asked for here.', 'F'],
    ['3 furlongs', '3 furlongs ends in "urlongs", which is no unit known here: use s, or leave it out.', 's'],
  ])('%s', (text, says, unit) => expect(value(text, unit)).toBe(says));
});

test('what is printed with enough figures is read back as it was', () => {
  const numbers = fc.tuple(fc.integer({ min: 1, max: 999_999 }), fc.integer({ min: -14, max: 6 }));
  fc.assert(
    fc.property(numbers, ([figures, power]) => {
      const x = Number(`${figures}e${power}`);
      expect(Number(value(siFormat(x, 'Ω', 6), 'Ω')) / x).toBeCloseTo(1, 12);
    }),
    { seed: 2 },
  );
});
