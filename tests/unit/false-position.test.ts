/** Where a level passes its mark is found in a few questions, on exponentials as on straight lines. */
import { describe, expect, test } from 'vitest';
import { falsePosition } from '../../sim-core/solve/false-position.ts';

/** Asks until the value is within 1 nV; returns the place, and how often it was asked. */
function ask(f: (t: number) => number, high: number) {
  let asked = 0;
  let last = Number.NaN;
  const at = falsePosition({ at: 0, value: f(0) }, { at: high, value: f(high) }, 1e-9, 1e-12 * high, (t) => {
    asked += 1;
    last = t;
    return f(t);
  });
  return { at, asked, last };
}

describe('false position', () => {
  test.each([0.01, 0.1, 0.5, 0.9, 0.99])('finds where 5 V through R and C pass %d of the way in at most 9 questions', (part) => {
    const { at, asked, last } = ask((t) => 5 * (1 - Math.exp(-t)) - 5 * part * (1 - Math.exp(-1)), 1);
    expect(Math.abs(at + Math.log(1 - part * (1 - Math.exp(-1))))).toBeLessThan(2e-9);
    expect(asked).toBeLessThanOrEqual(9);
    expect(last).toBe(at);
  });

  test('asks once of a straight line', () => {
    expect(ask((t) => t - 0.3, 1)).toMatchObject({ at: 0.3, asked: 1 });
  });

  test('stays between the two places where the quantity jumps', () => {
    const { at, last, asked } = ask((t) => (t < 0.3 ? -1 : 4), 1);
    expect(at).toBeCloseTo(0.3, 11);
    expect(last).toBe(at);
    expect(asked).toBeLessThan(100);
  });

  test('is asked at the place it gives, even where there is nothing to narrow', () => {
    const seen: number[] = [];
    const at = falsePosition({ at: 0, value: -1 }, { at: 1e-13, value: 1 }, 1e-9, 1e-12, (t) => {
      seen.push(t);
      return t;
    });
    expect(seen).toEqual([at]);
  });
});
