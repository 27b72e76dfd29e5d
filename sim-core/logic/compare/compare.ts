/** How a memory's contents differ from what is wanted: byte by byte, and as one explanation, by exchanged pins and inverted lines, where there is one. */

import { grouped } from '../../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
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
  const differs = wrongBytes(
    wanted.bytes,
    seen.bytes,
    care.map((c, at) => c & (seen.given[at] ?? 0)),
  );
  const missing = care.reduce((n, c, at) => n + (c !== 0 && seen.given[at] === 0 ? 1 : 0), 0);
  const straight = nothingChanged(addressPins, dataPins);
  const [first] = seen.bytes;
  const plain: Comparison = {
    addressPins,
    missing,
    ...(first !== undefined && missing === 0 && seen.bytes.every((b) => b === first) ? { everywhere: first } : {}),
    differs,
    reading: straight,
    unexplained: differs,
    others: [],
    ways: 0,
    alikePins: [],
  };
  // pins cannot be told from a part of the bytes, nor from bytes that are all alike
  if (differs.length === 0 || missing > 0 || plain.everywhere !== undefined) return done(plain);

  const [w, s] = [wanted.bytes.map((b) => b & used), seen.bytes.map((b) => b & used)];
  const { ways, count, alikePins, complete } = waysToRead(w, s, addressPins, dataPins);
  const exact = [...ways].sort((a, b) => explanationCost(a, 0) - explanationCost(b, 0));
  const candidates = exact[0] ? [straight, exact[0]] : [straight, nearestReading(w, care, s, addressPins, dataPins)];
  const judged = candidates.map((reading) => {
    const unexplained = wrongBytes(seenThrough(reading, w), s, seenThrough({ ...reading, dataInverted: 0 }, care));
    return {
      reading,
      unexplained,
      cost: explanationCost(
        reading,
        unexplained.reduce((n, b) => n + bitsIn(b.bits), 0),
      ),
    };
  });
  const best = judged.reduce((a, b) => (b.cost < a.cost ? b : a));
  const stuck = stuckLines(w, s, care, addressPins, dataPins);
  if (stuck.address.length + stuck.data.length > 0) {
    const lineCare = seenStuck({ address: stuck.address, data: [] }, care).map((c, at) => c & (care[at] ?? 0));
    const unexplained = wrongBytes(seenStuck(stuck, w), s, lineCare);
    if (unexplained.length <= Math.min(best.unexplained.length, LEFT_OVER * differs.length)) return done({ ...plain, stuck, unexplained });
  }
  if (best.unexplained.length > LEFT_OVER * differs.length) return done(plain);
  return done({
    ...plain,
    reading: best.reading,
    unexplained: best.unexplained,
    others: exact.slice(1),
    ways: complete ? count : 0,
    alikePins,
  });
}

function wrongBytes(wanted: Uint8Array, seen: Uint8Array, care: Uint8Array): WrongByte[] {
  const wrong: WrongByte[] = [];
  for (let address = 0; address < wanted.length; address++) {
    const bits = ((wanted[address] ?? 0) ^ (seen[address] ?? 0)) & (care[address] ?? 0);
    if (bits !== 0) wrong.push({ address, bits });
  }
  return wrong;
}

const bitsIn = (mask: number): number => [...mask.toString(2)].filter((c) => c === '1').length;
