/** What may have happened to an image: everything that leaves at most a few bits over, and whether one of them can be named alone. */
import { sameValue } from '../../../shared/same-value.ts';
import { bitCount } from '../../units/bit-count.ts';
import { makeRandom } from '../../units/random.ts';
import { addressCollapses, besides, collapsesOf } from './collapses.ts';
import { bitsApart, type Compared, costOf, type Explanation, judged, MOST_WRONG } from './compared.ts';
import { type Disorder, seenThrough, type Words } from './disorder.ts';
import { waysToRead } from './permuted.ts';
import { type Guess, oneChange, shifts, twoChanges } from './readings.ts';

/** An explanation is named alone if each other takes so many bits more to say: as likely as one in some hundreds beside it. Our choice. */
const MARGIN = 8;
/** Losses of levels beyond so many are not all combined with another change. */
const MOST_COMBINED = 48;
/** In more words than these only shifts by one or two rows are taken back to look for lost address levels. */
const MOST_SHIFTED = 64;
/** So many that fit are enough to know that nothing is known. */
const ENOUGH = 64;

/** A few single bits in so many words are what they seem: two things at once would have changed more. Our choice. */
const LARGE = 256;
const FEW = 1024;

export interface Explanations {
  /** those that fit about as well, the simplest first; one without disorders: single bits are wrong. Empty: nothing fits that was tried. */
  readonly fits: readonly Explanation[];
  /** it is the only way to exchange and invert pins that leaves nothing over: all of them were gone through */
  readonly only: boolean;
  readonly alikePins: readonly (readonly number[])[];
}

/** What differs is known to differ somewhere. */
export function explained(c: Compared): Explanations {
  const found = new Found(c);
  for (const guess of guesses(c, found)) {
    found.note(guess);
    if (found.isEnough) break;
  }
  // from images that are given whole, all ways to exchange and invert pins follow
  const used = 2 ** c.pins.data - 1;
  const bits = ({ words }: Words) => words.map((w) => w & used);
  const exact = isWhole(c) ? waysToRead(bits(c.wanted), bits(c.seen), c.pins) : undefined;
  for (const reading of exact?.ways ?? []) found.note(reading);
  const fits = found.best();
  return {
    fits,
    only: exact?.count === 1 && exact.complete && fits.length === 1 && fits[0]?.wrong === 0,
    alikePins: exact && exact.count > 0 ? exact.alikePins : [],
  };
}

/** Single things first; two together only where one leaves something over. */
function* guesses(c: Compared, found: Found): Generator<Guess> {
  const collapses = collapsesOf(c);
  for (const d of collapses) yield [d];
  yield* oneChange(c);
  const size = c.wanted.words.length;
  const isLittle = size >= LARGE && found.bits <= Math.max(MOST_WRONG, size / FEW);
  if (found.isExact || isLittle) return;
  yield* twoChanges(c);
  yield* collapsedThenShifted(c);
  for (const d of collapses.slice(0, MOST_COMBINED)) {
    for (const other of collapses) if (other !== d) yield [other, d];
    for (const guess of oneChange(besides(c, d))) if (guess.length === 1) yield [...guess, d];
  }
}

/** A stuck or shorted address pin behind a shift shows where the shift is taken back. */
function* collapsedThenShifted(c: Compared): Generator<Guess> {
  const size = c.wanted.words.length;
  for (const { by, disorders } of shifts(size, size > MOST_SHIFTED)) {
    const back = (of: Uint16Array) => of.map((_, x) => of[(x + by) & (size - 1)] as number);
    const seen = { words: back(Uint16Array.from(c.seen.words)), care: back(Uint16Array.from(c.seen.care)) };
    for (const d of addressCollapses({ ...c, seen })) yield [d, ...disorders];
  }
}

function isWhole({ wanted, seen, pins }: Compared): boolean {
  const all = 2 ** pins.data - 1;
  return wanted.care.every((c, x) => c === all && seen.care[x] === all);
}

/** All that fits, each effect once. */
class Found {
  private readonly byEffect = new Map<string, Explanation>();
  private readonly probe: Words;
  /** that differ at all */
  readonly bits: number;

  constructor(private readonly c: Compared) {
    this.bits = c.wanted.words.reduce((sum, _, x) => sum + bitCount(bitsApart(c.wanted, c.seen, x)), 0);
    const random = makeRandom(1);
    this.probe = { words: c.wanted.words.map(() => Math.floor(random() * 2 ** c.pins.data)), care: c.wanted.care };
  }

  get isEnough(): boolean {
    return this.byEffect.size >= ENOUGH;
  }

  get isExact(): boolean {
    return [...this.byEffect.values()].some((e) => e.wrong === 0);
  }

  note(disorders: Guess): void {
    if (disorders.length === 0) return;
    const one = judged(this.c, disorders);
    if (!one) return;
    const effect = this.effectOf(disorders);
    const known = this.byEffect.get(effect);
    if (!known || one.cost < known.cost) this.byEffect.set(effect, one);
  }

  /** The same for two that would do the same to any image of these words. */
  private effectOf(disorders: Guess): string {
    const { words, care } = seenThrough(disorders, this.probe);
    let [a, b] = [0, 0];
    for (const [x, c] of care.entries()) {
      a = Math.imul(a ^ ((words[x] as number) & c), 0x85ebca6b) + c;
      b = Math.imul(b ^ a ^ (a >>> 15), 0xc2b2ae35) + x;
    }
    return `${a | 0} ${b | 0}`;
  }

  best(): readonly Explanation[] {
    const { c, bits } = this;
    const single: Explanation = { disorders: [], wrong: bits, cost: costOf(c, [], bits) };
    const all = [...this.byEffect.values(), single].sort((a, b) => a.cost - b.cost);
    const [first] = all;
    if (!first) return [];
    const twins = twinsOf(c);
    // the simpler comes first, so of two that say the same it stays
    const whole = all.filter((e, i) => !all.some((o, k) => isPart(o, e, twins) && (k < i || !isPart(e, o, twins))));
    const near = whole.filter(
      (e) => e.cost <= first.cost + MARGIN || (e.wrong <= first.wrong && e.disorders.length <= first.disorders.length),
    );
    return first.disorders.length === 0 && near.length === 1 ? [] : near;
  }
}

/** For each data pin the first whose column is the same. */
function twinsOf({ pins, wanted: { words, care } }: Compared): readonly number[] {
  const columns = Array.from({ length: pins.data }, (_, j) =>
    words.reduce((text, w, x) => text + (((care[x] as number) >> j) & 1 ? String((w >> j) & 1) : '-'), ''),
  );
  return columns.map((column) => columns.indexOf(column));
}

/** Does the one say no more than the other without leaving more over? Saying nothing is least. */
const isPart = (less: Explanation, more: Explanation, twins: readonly number[]): boolean =>
  less !== more &&
  less.wrong <= more.wrong &&
  less.disorders.length <= more.disorders.length &&
  less.disorders.every((d) => more.disorders.some((o) => isWithin(d, o, twins)));

/** Which of data pins that are alike in the table is on which pin cannot be seen, nor whether one is stuck at the level that it has anyway. */
function isWithin(less: Disorder, more: Disorder, twins: readonly number[]): boolean {
  if (less.on !== more.on || less.is !== more.is) return false;
  if (less.is === 'stuck' && more.is === 'stuck') return less.lines.every((l) => more.lines.some((o) => sameValue(l, o)));
  if (less.on === 'data' && less.is === 'permuted' && more.is === 'permuted')
    return more.order.every((to, i) => twins[i] === twins[less.order.indexOf(to)]);
  return sameValue(less, more);
}
