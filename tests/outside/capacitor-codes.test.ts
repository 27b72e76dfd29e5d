/**
 * Values of capacitors as IEC 60062 prints them: the letter of the prefix stands where the point would, p, n, µ, m or F; of resistors R, K, M likewise.
 * The code is from memory (no copy of the standard was at hand); the lines follow its table of examples.
 */
import { describe, expect, test } from 'vitest';
import { parseQuantity } from '../../sim-core/index.ts';

const CAPACITORS: ReadonlyArray<readonly [code: string, farads: number]> = [
  ['p10', 0.1e-12],
  ['p15', 0.15e-12],
  ['p332', 0.332e-12],
  ['p590', 0.59e-12],
  ['1p0', 1e-12],
  ['1p5', 1.5e-12],
  ['3p32', 3.32e-12],
  ['5p90', 5.9e-12],
  ['10p', 10e-12],
  ['33p2', 33.2e-12],
  ['100p', 100e-12],
  ['590p', 590e-12],
  ['n10', 0.1e-9],
  ['n332', 0.332e-9],
  ['1n0', 1e-9],
  ['3n32', 3.32e-9],
  ['4n7', 4.7e-9],
  ['33n2', 33.2e-9],
  ['100n', 100e-9],
  ['590n', 590e-9],
  ['µ10', 0.1e-6],
  ['u47', 0.47e-6],
  ['1µ0', 1e-6],
  ['3µ32', 3.32e-6],
  ['10µ', 10e-6],
  ['33u2', 33.2e-6],
  ['590µ', 590e-6],
  ['1m0', 1e-3],
  ['3m32', 3.32e-3],
  ['10m', 10e-3],
];
const RESISTORS: ReadonlyArray<readonly [code: string, ohms: number]> = [
  ['R10', 0.1],
  ['R15', 0.15],
  ['1R0', 1],
  ['5R90', 5.9],
  ['33R2', 33.2],
  ['590R', 590],
  ['1K0', 1e3],
  ['3K32', 3.32e3],
  ['33K2', 33.2e3],
  ['M10', 0.1e6],
  ['1M0', 1e6],
  ['33M2', 33.2e6],
  ['1G0', 1e9],
  ['1T0', 1e12],
];

describe.each([
  ['F', CAPACITORS],
  ['Ω', RESISTORS],
] as const)('codes of values in %s', (unit, codes) => {
  test.each(codes)('%s is %d', (code, value) => {
    const read = parseQuantity(code, unit);
    expect(read.ok && Math.abs(read.value / value - 1)).toBeLessThan(1e-12);
  });
});
