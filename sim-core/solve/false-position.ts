/** Where a rising quantity passes zero: false position in the Illinois variant, which halves the value at an end that has stayed twice. */

/** A place and the value that the quantity has there. */
export interface Place {
  readonly at: number;
  readonly value: number;
}

/**
 * low: where the quantity is not above zero, high: where it is. Narrows them until a value is within `near` of zero, or the places are within `width`
 * of each other; the value was then last asked for at the place that is returned.
 * Source: M. Dowell, P. Jarratt, A modified regula falsi method, BIT 11 (1971), from memory; the number of questions is tested.
 */
export function falsePosition(low: Place, high: Place, near: number, width: number, valueAt: (at: number) => number): number {
  let [a, fa, b, fb] = [low.at, low.value, high.at, high.value];
  let stayed: 'a' | 'b' | undefined;
  let at = b;
  while (b - a > width) {
    const cut = a - (fa * (b - a)) / (fb - fa);
    at = cut > a && cut < b ? cut : (a + b) / 2;
    if (at <= a || at >= b) break;
    const f = valueAt(at);
    if (Math.abs(f) <= near) return at;
    if (f > 0) {
      [b, fb] = [at, f];
      if (stayed === 'a') fa /= 2;
      stayed = 'a';
    } else {
      [a, fa] = [at, f];
      if (stayed === 'b') fb /= 2;
      stayed = 'b';
    }
  }
  if (at !== b || at === high.at) valueAt(b);
  return b;
}
