/** A way to read one image in another: pins exchanged and lines inverted. Seen(x) = the wanted bits, looked up at the address whose pins were exchanged. */
import { bitCount } from '../../units/bit-count.ts';

/** How the pins of a memory were mixed up: which was taken for which, which were inverted, and by how much all addresses are off. */
export interface Transform {
  /** wanted address pin i is seen on pin address[i] */
  readonly address: readonly number[];
  /** bit i: that wanted address pin is seen inverted */
  readonly addressInverted: number;
  /** wanted data pin j is seen on pin data[j] */
  readonly data: readonly number[];
  /** bit j: that wanted data pin is seen inverted */
  readonly dataInverted: number;
  /** every byte is seen so many addresses higher than wanted, round the end */
  readonly shift: number;
}

export const nothingChanged = (addressPins: number, dataPins: number): Transform => ({
  address: Array.from({ length: addressPins }, (_, i) => i),
  addressInverted: 0,
  data: Array.from({ length: dataPins }, (_, j) => j),
  dataInverted: 0,
  shift: 0,
});

/** For each seen address, the wanted one. */
export function wantedAddresses({ address, addressInverted, shift }: Transform): Uint32Array {
  const from = new Uint32Array(2 ** address.length);
  from[0] = addressInverted;
  // each address is an earlier one with one more pin high
  for (let pin = 0; pin < address.length; pin++) {
    const bit = 2 ** address.indexOf(pin);
    for (let x = 0; x < 2 ** pin; x++) from[2 ** pin + x] = (from[x] ?? 0) ^ bit;
  }
  return shift === 0 ? from : from.map((_, x) => from[(x - shift) & (from.length - 1)] ?? 0);
}

/** The image that would be seen. */
export function seenThrough(t: Transform, wanted: Uint8Array): Uint8Array {
  const byte = new Uint8Array(256);
  for (let b = 0; b < 256; b++)
    for (const [j, pin] of t.data.entries()) if (((b ^ t.dataInverted) >> j) & 1) byte[b] = (byte[b] ?? 0) | (1 << pin);
  const from = wantedAddresses(t);
  return Uint8Array.from(from, (a) => byte[wanted[a] ?? 0] ?? 0);
}

/** Bits that it takes to say what was changed; the simplest of several explanations has fewest. */
export function complexity(t: Transform): number {
  const all = (mask: number, pins: number) => (mask === 2 ** pins - 1 ? 2 : 4 * bitCount(mask));
  return (
    disorder(t.address) +
    disorder(t.data) +
    all(t.addressInverted, t.address.length) +
    all(t.dataInverted, t.data.length) +
    (t.shift === 0 ? 0 : 6)
  );
}

/** A whole or partial reversal is one thing to say; else each pin that moved is one. */
function disorder(order: readonly number[]): number {
  const moved = order.filter((to, i) => to !== i).length;
  if (moved === 0) return 0;
  return reversedRun(order) ? 6 : 4 * moved;
}

/** First and last pin of a run that is turned end for end while all others stay; undefined if it is anything else. */
export function reversedRun(order: readonly number[]): readonly [from: number, to: number] | undefined {
  const from = order.findIndex((to, i) => to !== i);
  if (from < 0) return undefined;
  const to = order[from] ?? from;
  return order.every((pin, i) => pin === (i >= from && i <= to ? from + to - i : i)) ? [from, to] : undefined;
}
