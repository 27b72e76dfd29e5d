/** Lines of a memory that never change where they should: data pins with one level at every address, and address pins that make no difference. */

export interface StuckLine {
  readonly pin: number;
  /** as if it were always high, or always low */
  readonly high: boolean;
}

export interface Stuck {
  readonly address: readonly StuckLine[];
  readonly data: readonly StuckLine[];
}

/** care: bits that count, a mask a byte. All three have the same 2^addressPins bytes. A line that need not change is not stuck. */
export function stuckLines(wanted: Uint8Array, seen: Uint8Array, care: Uint8Array, addressPins: number, dataPins: number): Stuck {
  const [shouldBeHigh, shouldBeLow] = [levels(wanted, care, 1), levels(wanted, care, 0)];
  const [isHigh, isLow] = [levels(seen, care, 1), levels(seen, care, 0)];
  const stuck = shouldBeHigh & shouldBeLow & (isHigh ^ isLow);
  const data = pins(dataPins).flatMap((pin): StuckLine[] => ((stuck >> pin) & 1 ? [{ pin, high: ((isHigh >> pin) & 1) === 1 }] : []));
  const address = pins(addressPins).flatMap((pin): StuckLine[] => {
    const bit = 2 ** pin;
    let should = 0;
    // rows that are as wanted with the pin low, less those that are with it high
    let low = 0;
    for (let x = 0; x < seen.length; x++) {
      if (x & bit) continue;
      const counts = at(care, x) & at(care, x | bit) & ~stuck;
      if ((at(seen, x) ^ at(seen, x | bit)) & counts) return [];
      should |= (at(wanted, x) ^ at(wanted, x | bit)) & counts;
      low += Number(((at(wanted, x) ^ at(seen, x)) & counts) === 0) - Number(((at(wanted, x | bit) ^ at(seen, x)) & counts) === 0);
    }
    return should === 0 ? [] : [{ pin, high: low < 0 }];
  });
  return { address, data };
}

/** What would be seen of these bytes. */
export function seenStuck({ address, data }: Stuck, bytes: Uint8Array): Uint8Array {
  const mask = (lines: readonly StuckLine[]) => lines.reduce((m, l) => m | (1 << l.pin), 0);
  const [held, heldHigh] = [mask(address), mask(address.filter((l) => l.high))];
  const [fixed, fixedHigh] = [mask(data), mask(data.filter((l) => l.high))];
  return bytes.map((_, x) => (at(bytes, (x & ~held) | heldHigh) & ~fixed) | fixedHigh);
}

/** Data pins that have this level at some address where they count. */
const levels = (bytes: Uint8Array, care: Uint8Array, level: 0 | 1): number =>
  bytes.reduce((found, byte, x) => found | ((level === 1 ? byte : ~byte) & at(care, x)), 0);

const at = (bytes: Uint8Array, x: number): number => bytes[x] as number;
const pins = (count: number): number[] => Array.from({ length: count }, (_, pin) => pin);
