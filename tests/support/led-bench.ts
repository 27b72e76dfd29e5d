/** The drawn bench of an LED with its resistor, and places on it, for tests of the hand. */
import { DrawnBench } from './drawn-bench.ts';
import { ledPlan } from './plans.ts';

export const withLed = () => DrawnBench.of(ledPlan(330));
export const R1 = { on: '[data-part="R1"]' };
export const W1 = { on: '[data-wire="W1"]' };
/** Between R1's legs in a5 and a10. */
export const middleOf = (bench: DrawnBench): readonly [number, number] => {
  const [a, b] = [bench.spotOf('a5'), bench.spotOf('a10')];
  return [(a[0] + b[0]) / 2, a[1]];
};
export const by = ([x, y]: readonly [number, number], dx: number, dy = 0): readonly [number, number] => [x + dx, y + dy];
