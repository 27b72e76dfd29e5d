/** Ways in which a memory's pins or its bytes are mixed up: what each makes of an image, and how much it takes to say it. */
import { bitCount } from '../../units/bit-count.ts';

/** A line with one level, whatever it should have. */
export interface StuckLine {
  readonly pin: number;
  /** as if it were always high, or always low */
  readonly high: boolean;
}

/** One thing that is wrong. Several follow each other: what is seen through the first is seen through the next. */
export type Disorder =
  /** what belongs to pin i is on pin order[i] */
  | { readonly is: 'permuted'; readonly on: Bus; readonly order: readonly number[] }
  | { readonly is: 'inverted'; readonly on: Bus; readonly mask: number }
  | { readonly is: 'stuck'; readonly on: Bus; readonly lines: readonly StuckLine[] }
  /** both pins have the AND, or the OR, of their two levels */
  | { readonly is: 'shorted'; readonly on: Bus; readonly pins: readonly [number, number]; readonly as: 'and' | 'or' }
  /** every word is seen so many addresses higher, round the end */
  | { readonly is: 'shifted'; readonly on: 'address'; readonly by: number }
  /** where this address pin has this level, every word is the same */
  | { readonly is: 'half'; readonly on: 'address'; readonly pin: number; readonly high: boolean; readonly word: number };

export type Bus = 'address' | 'data';

/** Words by address, and for each a mask of the bits that count. */
export interface Words {
  readonly words: Uint16Array;
  readonly care: Uint16Array;
}

/** What is seen of an image through these, one after the other. */
export const seenThrough = (disorders: readonly Disorder[], image: Words): Words =>
  disorders.reduce((seen, d) => throughOne(d, seen), image);

function throughOne(d: Disorder, image: Words): Words {
  if (d.is === 'half') {
    const isIn = (x: number) => ((x >> d.pin) & 1) === Number(d.high);
    return { words: image.words.map((w, x) => (isIn(x) ? d.word : w)), care: image.care };
  }
  if (d.on === 'data') return throughData(d, image);
  const from = addressMap(d, image.words.length);
  return { words: Uint16Array.from(from, (a) => image.words[a] as number), care: Uint16Array.from(from, (a) => image.care[a] as number) };
}

type OnAddress = Exclude<Extract<Disorder, { on: Bus }>, { is: 'half' }>;

/** For each address that is given, the one that is looked up. size: a power of two. */
export function addressMap(d: OnAddress | Extract<Disorder, { is: 'shifted' }>, size: number): Uint32Array {
  const from = new Uint32Array(size);
  switch (d.is) {
    case 'permuted': {
      // each address is an earlier one with one more pin high
      for (let pin = 0; 2 ** pin < size; pin++) {
        const bit = 2 ** d.order.indexOf(pin);
        for (let x = 0; x < 2 ** pin; x++) from[2 ** pin + x] = (from[x] as number) | bit;
      }
      return from;
    }
    case 'inverted':
      return from.map((_, x) => x ^ d.mask);
    case 'shifted':
      return from.map((_, x) => (x - d.by) & (size - 1));
    case 'stuck': {
      const [held, high] = heldLines(d.lines);
      return from.map((_, x) => (x & ~held) | high);
    }
    case 'shorted': {
      const both = (1 << d.pins[0]) | (1 << d.pins[1]);
      return from.map((_, x) => shorted(x, both, d.as));
    }
  }
}

/** Data pins: words go through a table of all words that there are, don't-care bits go where their bits go. */
function throughData(d: Exclude<OnAddress, { is: 'shifted' }>, { words, care }: Words): Words {
  switch (d.is) {
    case 'permuted': {
      const moved = new Map<number, number>();
      const move = (w: number): number => {
        const known = moved.get(w);
        if (known !== undefined) return known;
        const to = d.order.reduce((sum, pin, j) => sum | (((w >> j) & 1) << pin), 0);
        moved.set(w, to);
        return to;
      };
      return { words: words.map(move), care: care.map(move) };
    }
    case 'inverted':
      return { words: words.map((w) => w ^ d.mask), care };
    case 'stuck': {
      const [held, high] = heldLines(d.lines);
      return { words: words.map((w) => (w & ~held) | high), care };
    }
    case 'shorted': {
      const both = (1 << d.pins[0]) | (1 << d.pins[1]);
      return { words: words.map((w) => shorted(w, both, d.as)), care: care.map((c) => ((c & both) === both ? c : c & ~both)) };
    }
  }
}

export function heldLines(lines: readonly StuckLine[]): readonly [held: number, high: number] {
  const mask = (of: readonly StuckLine[]) => of.reduce((m, l) => m | (1 << l.pin), 0);
  return [mask(lines), mask(lines.filter((l) => l.high))];
}

const shorted = (w: number, both: number, as: 'and' | 'or'): number =>
  (as === 'and' ? (w & both) === both : (w & both) !== 0) ? w | both : w & ~both;

/** How many address and data pins there are. */
export interface Pins {
  readonly address: number;
  readonly data: number;
}

/** Bits that it takes to say it; the simplest of several explanations has fewest. Our choice: a choice among n things takes about log2 n. */
export function complexity(d: Disorder, pins: Pins): number {
  switch (d.is) {
    case 'permuted':
      return orderCost(d.order);
    case 'inverted':
      return d.mask === 2 ** pins[d.on] - 1 ? 4 : Math.min(4 * bitCount(d.mask), 2 + pins[d.on]);
    case 'stuck':
      return 5 * d.lines.length;
    case 'shorted':
      return 8;
    case 'shifted':
      return Math.abs(d.by) === 1 ? 5 : pins.address + 2;
    case 'half':
      return 6;
  }
}

/** A whole or partial reversal, a swap or a rotation is one thing to say; else each pin that moved is one. */
function orderCost(order: readonly number[]): number {
  const moved = order.filter((to, i) => to !== i).length;
  if (moved === 0) return 0;
  return moved === 2 || reversedRun(order) ? 6 : rotation(order) !== undefined ? 7 : 4 * moved;
}

/** First and last pin of a run that is turned end for end while all others stay; undefined if it is anything else. */
export function reversedRun(order: readonly number[]): readonly [from: number, to: number] | undefined {
  const from = order.findIndex((to, i) => to !== i);
  if (from < 0) return undefined;
  const to = order[from] ?? from;
  return order.every((pin, i) => pin === (i >= from && i <= to ? from + to - i : i)) ? [from, to] : undefined;
}

/** By how many places all pins from the first that moved to the last are moved on, the last ones to the front; undefined if it is anything else. */
export function rotation(order: readonly number[]): readonly [from: number, to: number, by: number] | undefined {
  const from = order.findIndex((to, i) => to !== i);
  const to = order.findLastIndex((pin, i) => pin !== i);
  if (from < 0) return undefined;
  const [size, by] = [to - from + 1, (order[from] ?? from) - from];
  return order.every((pin, i) => i < from || i > to || pin === from + ((i - from + by) % size)) ? [from, to, by] : undefined;
}
