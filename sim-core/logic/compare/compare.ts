/** How a memory's contents differ from what is wanted: byte by byte, and as one explanation, by exchanged pins and inverted lines, where there is one. */

import { grouped } from '../../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import { bitCount } from '../../units/bit-count.ts';
import type { MemoryImage } from '../memory-image.ts';
import { explanationCost, nearestReading } from './best-explanation.ts';
import { waysToRead } from './permuted.ts';
import { type Stuck, seenStuck, stuckLines } from './stuck-at.ts';
import { nothingChanged, seenThrough, type Transform } from './transform.ts';

/** A byte that is not as wanted. */
export interface WrongByte {
  readonly address: number;
  /** bits that differ and matter */
  readonly bits: number;
}

/** How an image differs from what is wanted: the wrong bytes, and one explanation of them all if there is one. */
export interface Comparison {
  readonly addressPins: number;
  /** wanted bytes that the other image does not give, so that nothing can be said of them */
  readonly missing: number;
  /** the byte that the other image holds at every address, if it holds but one */
  readonly everywhere?: number;
  /** all bytes that differ, in order of address */
  readonly differs: readonly WrongByte[];
  /** the simplest explanation; changes nothing if single bytes are the simplest thing to say */
  readonly reading: Transform;
  /** lines that never change, if that leaves no more unexplained than any exchange */
  readonly stuck?: Stuck;
  /** bytes that differ from what the explanation predicts */
  readonly unexplained: readonly WrongByte[];
  /** other explanations that leave nothing over either, simplest first */
  readonly others: readonly Transform[];
  /** ways to exchange and invert pins that leave nothing over; 0 if there is none or the search was given up */
  readonly ways: number;
  /** groups of address pins that may be exchanged without a trace, because the wanted bytes are alike */
  readonly alikePins: readonly (readonly number[])[];
}

/** An explanation that leaves more than this part of the bytes unexplained is none. Our choice. */
const LEFT_OVER = 0.5;

/** Two images as far as they are compared: data pins in use only. */
interface Compared {
  readonly addressPins: number;
  readonly dataPins: number;
  readonly wanted: Uint8Array;
  readonly seen: Uint8Array;
  /** wanted bits that are given */
  readonly care: Uint8Array;
}

/**
 * Bits that either image does not give do not count. dataPins: D0 and so many more that are in use. Both images must have the same 2^n bytes.
 * Fails with `image/sizes-differ`.
 */
export function compareImages(wanted: MemoryImage, seen: MemoryImage, dataPins = 8): Outcome<Comparison> {
  const size = wanted.bytes.length;
  const addressPins = Math.round(Math.log2(size));
  if (seen.bytes.length !== size || 2 ** addressPins !== size)
    return failed(
      'image/sizes-differ',
      'size',
      `One image has ${grouped(size)} bytes and the other ${grouped(seen.bytes.length)}; only images of the same memory, with 2, 4, 8 … bytes, can be compared. Choose the same memory for both.`,
    );
  const used = 2 ** dataPins - 1;
  const care = wanted.given.map((g) => g & used);
  const plain = byteByByte(wanted.bytes, seen, care, nothingChanged(addressPins, dataPins));
  // pins cannot be told from a part of the bytes, nor from bytes that are all alike
  if (plain.differs.length === 0 || plain.missing > 0 || plain.everywhere !== undefined) return done(plain);
  const masked = (bytes: Uint8Array) => bytes.map((b) => b & used);
  const images = { addressPins, dataPins, wanted: masked(wanted.bytes), seen: masked(seen.bytes), care };
  return done({ ...plain, ...explanation(images, plain) });
}

/** What differs, without an explanation. */
function byteByByte(wanted: Uint8Array, { bytes, given }: MemoryImage, care: Uint8Array, reading: Transform): Comparison {
  const differs = wrongBytes(
    wanted,
    bytes,
    care.map((c, at) => c & (given[at] ?? 0)),
  );
  const missing = care.reduce((n, c, at) => n + (c !== 0 && given[at] === 0 ? 1 : 0), 0);
  const [first] = bytes;
  return {
    addressPins: reading.address.length,
    missing,
    ...(first !== undefined && missing === 0 && bytes.every((b) => b === first) ? { everywhere: first } : {}),
    differs,
    reading,
    unexplained: differs,
    others: [],
    ways: 0,
    alikePins: [],
  };
}

/** The simplest thing to say of what differs; nothing if single bytes are. */
function explanation(images: Compared, { differs, reading: straight }: Comparison): Partial<Comparison> {
  const { wanted, seen, care, addressPins, dataPins } = images;
  const { ways, count, alikePins, complete } = waysToRead(wanted, seen, addressPins, dataPins);
  const exact = [...ways].sort((a, b) => explanationCost(a, 0) - explanationCost(b, 0));
  const best = [straight, exact[0] ?? nearestReading(wanted, care, seen, addressPins, dataPins)]
    .map((reading) => judged(reading, images))
    .reduce((a, b) => (b.cost < a.cost ? b : a));
  const stuck = stuckExplanation(images);
  if (stuck && stuck.unexplained.length <= Math.min(best.unexplained.length, LEFT_OVER * differs.length)) return stuck;
  const { reading, unexplained } = best;
  if (unexplained.length > LEFT_OVER * differs.length) return {};
  return { reading, unexplained, others: exact.slice(1), ways: complete ? count : 0, alikePins };
}

/** What a way of reading leaves unexplained, and what it costs to say so. */
function judged(reading: Transform, { wanted, seen, care }: Compared) {
  const unexplained = wrongBytes(seenThrough(reading, wanted), seen, seenThrough({ ...reading, dataInverted: 0 }, care));
  const bits = unexplained.reduce((n, b) => n + bitCount(b.bits), 0);
  return { reading, unexplained, cost: explanationCost(reading, bits) };
}

/** Lines that never change, if there are any, and what they leave unexplained. */
function stuckExplanation({ wanted, seen, care, addressPins, dataPins }: Compared) {
  const stuck = stuckLines(wanted, seen, care, addressPins, dataPins);
  if (stuck.address.length + stuck.data.length === 0) return undefined;
  const lineCare = seenStuck({ address: stuck.address, data: [] }, care).map((c, at) => c & (care[at] ?? 0));
  return { stuck, unexplained: wrongBytes(seenStuck(stuck, wanted), seen, lineCare) };
}

function wrongBytes(wanted: Uint8Array, seen: Uint8Array, care: Uint8Array): WrongByte[] {
  const wrong: WrongByte[] = [];
  for (let address = 0; address < wanted.length; address++) {
    const bits = ((wanted[address] ?? 0) ^ (seen[address] ?? 0)) & (care[address] ?? 0);
    if (bits !== 0) wrong.push({ address, bits });
  }
  return wrong;
}
