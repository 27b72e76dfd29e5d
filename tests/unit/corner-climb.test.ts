/** The worst corner looked for by signs: one variable after the other to its other bound, again and again until none is worse. */
import { expect, test } from 'vitest';
import { extremes } from '../../sim-core/tolerance/methods.ts';

const unit = { nominal: 0, least: -1, most: 1 };

/** Corners by the signs of three variables; flat everywhere else, so that nothing points to a corner. */
const corners: Readonly<Record<string, number>> = { '---': 0, '+--': -1, '-+-': 1, '--+': -2, '-++': 0, '++-': 2, '+-+': -3, '+++': 3 };
const y = (x: readonly number[]) =>
  x.every((v) => Math.abs(v) === 1) ? (corners[x.map((v) => (v > 0 ? '+' : '-')).join('')] as number) : 0;

test('goes round as long as a turn helps: the first and the last variable only pay once the second has moved', () => {
  const found = extremes(y, [unit, unit, unit], { mostCorners: 2, pieces: 2 });
  expect([found.by, found.most, found.atMost]).toEqual(['signs', 3, [1, 1, 1]]);
  expect([found.least, found.atLeast]).toEqual([-3, [1, -1, 1]]);
});

test('up to as many variables as it is told, all corners are tried', () => {
  const found = extremes(y, [unit, unit, unit], { mostCorners: 3, pieces: 2 });
  expect([found.by, found.most, found.least]).toEqual(['corners', 3, -3]);
});

test('a variable whose bounds meet is left where it is, and does not count', () => {
  const fixed = { nominal: 5, least: 5, most: 5 };
  const found = extremes(([a = 0, b = 0, c = 0]) => a + 10 * b - 100 * c, [unit, fixed, unit], { mostCorners: 2 });
  expect([found.by, found.least, found.most, found.atLeast, found.atMost]).toEqual(['corners', -51, 151, [-1, 5, 1], [1, 5, -1]]);
});

test('a range is looked at in its quarters unless another care is asked for', () => {
  const peakAt =
    (place: number) =>
    ([x = 0]: readonly number[]) =>
      x === place ? 1 : 0;
  expect([extremes(peakAt(-0.5), [unit]).turning, extremes(peakAt(-0.5), [unit]).seen.most]).toEqual([[0], 1]);
  expect(extremes(peakAt(-0.5), [unit], { pieces: 2 }).turning).toEqual([]);
  expect(extremes(peakAt(-0.6), [unit]).turning).toEqual([]);
  expect(extremes(peakAt(-0.6), [unit], { pieces: 5 }).turning).toEqual([0]);
});
