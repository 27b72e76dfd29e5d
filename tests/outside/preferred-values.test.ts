/**
 * Preferred values against IEC 60063.
 * E6, E12, E24: the standard's table as quoted at qsl.net/g4usp, "preferred values". E96: there in part, the rest from memory;
 * that list is typed in here and compared with the standard's rule, by which the program computes it.
 */
import { describe, expect, test } from 'vitest';
import { E_SERIES, nearestIn, nextUpIn } from '../../sim-core/units/e-series.ts';

const numbers = (text: string) => text.trim().split(/\s+/).map(Number);

describe('the series', () => {
  test.each<[keyof typeof E_SERIES, string]>([
    ['E6', '10 15 22 33 47 68'],
    ['E12', '10 12 15 18 22 27 33 39 47 56 68 82'],
    ['E24', '10 11 12 13 15 16 18 20 22 24 27 30 33 36 39 43 47 51 56 62 68 75 82 91'],
    [
      'E96',
      `100 102 105 107 110 113 115 118 121 124 127 130 133 137 140 143 147 150 154 158 162 165 169 174 178 182 187 191 196 200 205 210 215 221 226
       232 237 243 249 255 261 267 274 280 287 294 301 309 316 324 332 340 348 357 365 374 383 392 402 412 422 432 442 453 464 475 487 499 511 523
       536 549 562 576 590 604 619 634 649 665 681 698 715 732 750 768 787 806 825 845 866 887 909 931 953 976`,
    ],
  ])('%s', (series, published) => expect(E_SERIES[series]).toEqual(numbers(published)));
});

describe('picking a value', () => {
  test.each<[keyof typeof E_SERIES, number, number, number]>([
    ['E12', 310, 330, 330],
    ['E24', 310, 300, 330],
    ['E6', 0.8, 0.68, 1],
    ['E24', 95, 91, 100],
    ['E96', 4990, 4990, 4990],
    ['E96', 981, 976, 1000],
    ['E24', 330, 330, 330],
    ['E12', 1e-9, 1e-9, 1e-9],
    ['E6', 3e6, 3.3e6, 3.3e6],
  ])('%s at %d: nearest %d, next up %d', (series, value, nearest, up) => {
    expect(nearestIn(series, value)).toBe(nearest);
    expect(nextUpIn(series, value)).toBe(up);
  });
});
