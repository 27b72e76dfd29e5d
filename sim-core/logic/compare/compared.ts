/** A wanted and a seen image side by side, and which bits of the seen one an explanation leaves wrong. */
import { bitCount } from '../../units/bit-count.ts';
import { complexity, type Disorder, type Pins, seenThrough, type Words } from './disorder.ts';

/** Two images of the same 2^n words. */
export interface Compared {
  readonly pins: Pins;
  /** care: bits that the wanted image gives */
  readonly wanted: Words;
  /** care: bits that the seen image gives */
  readonly seen: Words;
  /** address pins that differ among the words that are wanted; the others are tied */
  readonly active: readonly number[];
}

/** What may have happened, and what it leaves over. */
export interface Explanation {
  /** one after the other; none: single bits are wrong */
  readonly disorders: readonly Disorder[];
  /** bits that differ from what it predicts */
  readonly wrong: number;
  /** bits that it takes to say it and what is left over */
  readonly cost: number;
}

/** So many single bits may be wrong besides. */
export const MOST_WRONG = 3;

export const comparedOf = (pins: Pins, wanted: Words, seen: Words): Compared => ({ pins, wanted, seen, active: activePins(pins, wanted) });

function activePins({ address }: Pins, { care }: Words): readonly number[] {
  let [high, low] = [0, 0];
  for (const [x, c] of care.entries()) {
    if (c === 0) continue;
    high |= x;
    low |= ~x;
  }
  return Array.from({ length: address }, (_, pin) => pin).filter((pin) => ((high & low) >> pin) & 1);
}

/** Bits that differ, address by address; where the prediction says nothing, nothing differs. */
export const bitsApart = (predicted: Words, seen: Words, x: number): number =>
  ((predicted.words[x] as number) ^ (seen.words[x] as number)) & (predicted.care[x] as number) & (seen.care[x] as number);

/** undefined: it leaves more than `most` bits over, or says too little of what is seen to be believed: of few words, or only of the half in which all are the same. */
export function judged(c: Compared, disorders: readonly Disorder[], most = MOST_WRONG): Explanation | undefined {
  const predicted = seenThrough(disorders, c.wanted);
  let wrong = 0;
  let told = 0;
  let asked = 0;
  let [ones, zeros] = [0, 0];
  for (let x = 0; x < predicted.words.length; x++) {
    const known = c.seen.care[x] as number;
    wrong += bitCount(bitsApart(predicted, c.seen, x));
    if (wrong > most) return undefined;
    const given = (predicted.care[x] as number) & known;
    told += bitCount(given);
    ones |= (predicted.words[x] as number) & given;
    zeros |= ~(predicted.words[x] as number) & given;
    asked += bitCount((c.wanted.care[x] as number) & known);
  }
  const isVoid = (ones & zeros) === 0 && disorders.some((d) => d.is === 'half');
  return 2 * told < asked || isVoid ? undefined : { disorders, wrong, cost: costOf(c, disorders, wrong) };
}

/** A bit that is wrong takes its address and its pin to say. */
export const costOf = ({ pins, active }: Compared, disorders: readonly Disorder[], wrong: number): number =>
  disorders.reduce((sum, d) => sum + complexity(d, pins), 2 * Math.max(0, disorders.length - 1)) +
  wrong * (active.length + Math.ceil(Math.log2(pins.data + 1)));
