/** A quantity over a short range of a rail's voltage: the polynomial of fifth degree that meets three solved points with their slopes. */

/** A range of a rail's voltage [V]. Polynomials are of t = (volts − middle) / half, which is −1 … 1 in it. */
export interface Range {
  readonly middle: number;
  readonly half: number;
}

/** Coefficients of one polynomial, the constant first. */
export const TERMS = 6;

/** A quantity at t = −1, 0, 1, and by how much it grows with t there. */
export interface ThreePoints {
  readonly values: readonly [number, number, number];
  readonly slopes: readonly [number, number, number];
}

/** Written into `terms` from place `at` on. */
export function fitTerms({ values: [low, middle, high], slopes: [left, here, right] }: ThreePoints, terms: Float64Array, at: number): void {
  const even = (high + low) / 2 - middle;
  const odd = (high - low) / 2 - here;
  const fourth = (right - left) / 4 - even;
  const fifth = ((right + left) / 2 - here - 3 * odd) / 2;
  terms[at] = middle;
  terms[at + 1] = here;
  terms[at + 2] = even - fourth;
  terms[at + 3] = odd - fifth;
  terms[at + 4] = fourth;
  terms[at + 5] = fifth;
}

export function valueAt(terms: Float64Array, at: number, t: number): number {
  let value = terms[at + TERMS - 1] as number;
  for (let d = TERMS - 2; d >= 0; d--) value = value * t + (terms[at + d] as number);
  return value;
}

/** By how much it grows with t. */
export function slopeAt(terms: Float64Array, at: number, t: number): number {
  let slope = (TERMS - 1) * (terms[at + TERMS - 1] as number);
  for (let d = TERMS - 2; d >= 1; d--) slope = slope * t + d * (terms[at + d] as number);
  return slope;
}

/** It is nowhere in its range further than this from its value in the middle. */
export function spreadOf(terms: Float64Array, at: number): number {
  let reach = 0;
  for (let d = 1; d < TERMS; d++) reach += Math.abs(terms[at + d] as number);
  return reach;
}
