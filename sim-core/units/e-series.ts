/** Preferred values, IEC 60063: the series E6, E12, E24 and E96, and the nearest or next higher value in one of them. */

const E24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];

/** One decade of each series, ascending, as whole numbers. E96 follows the standard's rule 10^(i/96), rounded to three figures; E24 is older and does not. */
export const E_SERIES = {
  E6: E24.filter((_, i) => i % 4 === 0),
  E12: E24.filter((_, i) => i % 2 === 0),
  E24,
  E96: Array.from({ length: 96 }, (_, i) => Math.round(10 ** (2 + i / 96))),
} as const satisfies Record<string, readonly number[]>;

export type ESeries = keyof typeof E_SERIES;

/** The values of the series from the decade below `value` to the one above, ascending. */
function around(series: ESeries, value: number): number[] {
  const decade = Math.floor(Math.log10(value));
  const figures = series === 'E96' ? 2 : 1;
  return [decade - 1, decade, decade + 1].flatMap((d) => E_SERIES[series].map((m) => Number(`${m}e${d - figures}`)));
}

/** The value of the series with the smallest ratio to `value` (> 0). */
export const nearestIn = (series: ESeries, value: number): number =>
  around(series, value).reduce((best, v) => (Math.abs(Math.log(v / value)) < Math.abs(Math.log(best / value)) ? v : best));

/** The smallest value of the series that is not below `value` (> 0). */
export const nextUpIn = (series: ESeries, value: number): number => around(series, value).find((v) => v >= value * (1 - 1e-12)) ?? value;

/** The largest value of the series that is not above `value` (> 0). */
export const nextDownIn = (series: ESeries, value: number): number =>
  around(series, value).findLast((v) => v <= value * (1 + 1e-12)) ?? value;
