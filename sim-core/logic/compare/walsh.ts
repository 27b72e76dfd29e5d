/** Walsh–Hadamard spectra of an image's data bits: exchanging pins permutes them, inverting lines changes signs, nothing else happens to them. */

import type { Pins } from './disorder.ts';

export interface Spectra {
  readonly addressPins: number;
  /** one spectrum a data bit; coefficient ω is Σ over x of (−1)^(bit(x) + ω·x) */
  readonly columns: readonly Int32Array[];
}

export function spectraOf(words: ArrayLike<number>, { address: addressPins, data: dataPins }: Pins): Spectra {
  const size = 2 ** addressPins;
  const columns = Array.from({ length: dataPins }, (_, j) => {
    const s = Int32Array.from({ length: size }, (_, x) => 1 - 2 * (((words[x] ?? 0) >> j) & 1));
    for (let half = 1; half < size; half *= 2)
      for (let block = 0; block < size; block += 2 * half)
        for (let i = block; i < block + half; i++) {
          const [a, b] = [s[i] ?? 0, s[i + half] ?? 0];
          s[i] = a + b;
          s[i + half] = a - b;
        }
    return s;
  });
  return { addressPins, columns };
}

/** A well mixed 32-bit number of two. */
function mix(a: number, b: number): number {
  let h = Math.imul(a ^ 0x9e3779b9, 0x85ebca6b) ^ Math.imul(b + 0x7f4a7c15, 0xc2b2ae35);
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
  return (h ^ (h >>> 13)) >>> 0;
}

/**
 * Numbers that no exchange or inversion changes. data: one a data bit. pins: one an address pin. pairs: one a pair of address pins, at i · pins + k.
 * Equal things have equal numbers; unequal ones may too, so they only narrow the search.
 */
export interface Signature {
  readonly data: Uint32Array;
  readonly pins: Uint32Array;
  readonly pairs: Uint32Array;
}

export function signatureOf({ addressPins: n, columns }: Spectra): Signature {
  const size = 2 ** n;
  const weight = new Uint8Array(size);
  for (let w = 1; w < size; w++) weight[w] = (weight[w >> 1] ?? 0) + (w & 1);
  const data = Uint32Array.from(columns, (s) => {
    let sum = 0;
    for (let w = 0; w < size; w++) sum = (sum + mix(weight[w] ?? 0, Math.abs(s[w] ?? 0))) >>> 0;
    return sum;
  });
  const key = new Uint32Array(size);
  for (const [j, s] of columns.entries())
    for (let w = 0; w < size; w++) key[w] = ((key[w] ?? 0) + mix(data[j] ?? 0, Math.abs(s[w] ?? 0))) >>> 0;
  const pins = new Uint32Array(n);
  for (let w = 0; w < size; w++)
    for (let rest = w; rest !== 0; rest &= rest - 1) {
      const i = 31 - Math.clz32(rest & -rest);
      pins[i] = ((pins[i] ?? 0) + mix(weight[w] ?? 0, key[w] ?? 0)) >>> 0;
    }
  const pairs = new Uint32Array(n * n);
  for (let i = 0; i < n; i++) for (let k = 0; k < n; k++) if (i !== k) pairs[i * n + k] = key[(1 << i) | (1 << k)] ?? 0;
  return { data, pins, pairs };
}
