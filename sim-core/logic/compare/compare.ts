/** How what is seen of a memory, or of a bench that goes through its table, differs from what is wanted: word by word, and what may have happened. */

import { grouped } from '../../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { MemoryImage } from '../memory-image.ts';
import { bitsApart, type Compared, comparedOf, type Explanation } from './compared.ts';
import { type Pins, seenThrough, type Words } from './disorder.ts';
import { explained } from './explanations.ts';

/** A word that is not as wanted. */
export interface WrongWord {
  readonly address: number;
  /** bits that differ and matter */
  readonly bits: number;
  /** the word as it is, and as it should be: bits that do not matter are the same in both */
  readonly is: number;
  readonly should: number;
}

/** What may have happened. */
export interface FittingExplanation extends Pick<Explanation, 'disorders'> {
  /** words that it leaves over; what they should be is what it predicts */
  readonly leaves: readonly WrongWord[];
}

/** How one image differs from what is wanted. */
export interface Comparison {
  readonly pins: Pins;
  /** words of which a bit is wanted */
  readonly rows: number;
  /** wanted words that the other image does not give, so that nothing can be said of them */
  readonly missing: number;
  /** the word that the other image holds at every address that is wanted, if it holds but one and more are wanted */
  readonly everywhere?: number;
  /** all words that differ, in order of address */
  readonly differs: readonly WrongWord[];
  /** all that may have happened, the simplest first; none: nothing that is simpler than the words themselves */
  readonly fits: readonly FittingExplanation[];
  /** no other way to exchange and invert pins leaves nothing over */
  readonly only: boolean;
  /** groups of address pins that may be exchanged without a trace, because the wanted words are alike; only where something else is said */
  readonly alikePins: readonly (readonly number[])[];
}

/**
 * Bits that either image does not give do not count. dataPins: of the memory. Both images must have the same 2^n bytes.
 * Fails with `image/sizes-differ`.
 */
export function compareImages(wanted: MemoryImage, seen: MemoryImage, dataPins = 8): Outcome<Comparison> {
  const size = wanted.bytes.length;
  if (seen.bytes.length !== size || !Number.isInteger(Math.log2(size)))
    return failed(
      'image/sizes-differ',
      'size',
      `One image has ${grouped(size)} bytes and the other ${grouped(seen.bytes.length)}; only images of the same memory, with 2, 4, 8 … bytes, can be compared. Choose the same memory for both.`,
    );
  const used = 2 ** dataPins - 1;
  const words = ({ bytes, given }: MemoryImage): Words => ({
    words: Uint16Array.from(bytes),
    care: Uint16Array.from(given, (g) => g & used),
  });
  return done(compareWords(words(wanted), words(seen), dataPins));
}

/** Two images of the same 2^n words of `dataPins` bits. */
export function compareWords(wanted: Words, seen: Words, dataPins: number): Comparison {
  const c = comparedOf({ address: Math.log2(wanted.words.length), data: dataPins }, wanted, seen);
  const differs = wrongWords(wanted, c);
  const rows = wanted.care.reduce((n, care) => n + Number(care !== 0), 0);
  const missing = wanted.care.reduce((n, care, x) => n + Number(care !== 0 && seen.care[x] === 0), 0);
  const plain = { pins: c.pins, rows, missing, differs, fits: [], only: false, alikePins: [] };
  if (differs.length === 0) return plain;
  // from few of the words nothing is concluded
  if (2 * missing > rows) return plain;
  const everywhere = oneWord(c);
  // pins cannot be told from words that are all alike
  if (everywhere !== undefined) return { ...plain, everywhere };
  const { fits, ...more } = explained(c);
  return { ...plain, ...more, fits: fits.map(({ disorders }) => ({ disorders, leaves: wrongWords(seenThrough(disorders, wanted), c) })) };
}

function wrongWords(predicted: Words, { seen }: Compared): WrongWord[] {
  const wrong: WrongWord[] = [];
  for (let address = 0; address < predicted.words.length; address++) {
    const bits = bitsApart(predicted, seen, address);
    if (bits === 0) continue;
    const is = seen.words[address] as number;
    wrong.push({ address, bits, is, should: is ^ bits });
  }
  return wrong;
}

/** The word at every wanted address, where all of its bits are given. */
function oneWord({ wanted, seen, pins }: Compared): number | undefined {
  const all = 2 ** pins.data - 1;
  let one: number | undefined;
  for (const [x, care] of wanted.care.entries()) {
    if (care === 0) continue;
    const word = seen.words[x] as number;
    if (seen.care[x] !== all || (one !== undefined && (word ^ one) & all)) return undefined;
    one = word;
  }
  return one;
}
