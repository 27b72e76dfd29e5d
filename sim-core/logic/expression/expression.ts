/** A rule's right side as a tree, and how its parts are put together: what is one bit, what is a number, and what does not fit. */
import { OPERATIONS, type Operation } from './operations.ts';

interface Any {
  /** how many operations stand inside each other, names that lines give included; nothing for what has none inside */
  readonly deep?: number;
  /** how many bits the value has: 1 is a bit, more is a group, 0 is a number of unknown width */
  readonly bits: number;
  /** column of its text in its line, from 1 */
  readonly column: number;
}

export type Expression =
  | (Any & { readonly kind: 'constant'; readonly value: number })
  | (Any & { readonly kind: 'input'; readonly index: number })
  | (Any & { readonly kind: 'defined'; readonly definition: Definition; readonly bit?: number })
  | (Any & {
      readonly kind: 'apply';
      readonly operation: Operation;
      readonly says: string;
      readonly args: readonly Expression[];
      readonly blurred?: boolean;
    });

/** A name that a line gives a value. */
export interface Definition {
  readonly line: number;
  readonly names: readonly string[];
  readonly expression: Expression;
}

/** Why two parts do not fit, as "what is so, and what to write". */
export interface Misfit {
  readonly misfit: string;
}

export type Fitted = Expression | Misfit;

export const isMisfit = (f: Fitted): f is Misfit => 'misfit' in f;

/** 0 and 1 are numbers and bits. */
const isTruth = (e: Expression): boolean => e.kind === 'constant' && e.value <= 1;
export const isBit = (e: Expression): boolean => e.bits === 1 || isTruth(e);
/** Two bits, at least one of which is more than the number 0 or 1. */
export const areBits = (a: Expression, b: Expression): boolean => isBit(a) && isBit(b) && (a.bits === 1 || b.bits === 1);

/** Deeper than rules are, and far from what fills the stack of a worker when they are worked out. */
export const DEEPEST = 500;
export const depthOf = (...inside: readonly Expression[]): number => 1 + Math.max(0, ...inside.map((e) => e.deep ?? 0));

type OperationName = keyof typeof OPERATIONS;

export const applyOperation = (
  name: OperationName,
  says: string,
  args: readonly Expression[],
  bits: number,
  column: number,
): Expression => ({
  kind: 'apply',
  operation: OPERATIONS[name],
  says,
  args,
  bits,
  column,
  deep: depthOf(...args),
});

export const constant = (value: number, column: number): Expression => ({ kind: 'constant', value, bits: 0, column });

/** AND, OR, XOR: of two bits, or bit by bit of two groups. */
export function gate(name: 'and' | 'or' | 'xor', says: string, a: Expression, b: Expression): Fitted {
  const column = a.column;
  if (areBits(a, b)) return applyOperation(name, says, [a, b], 1, column);
  if (a.bits === 1 || b.bits === 1)
    return { misfit: `${says} joins one bit with a number. Compare the number, such as T > 0, or write times, plus or brackets` };
  return applyOperation(name, says, [a, b], Math.max(a.bits, b.bits), column);
}

export function inverted(a: Expression): Fitted {
  if (isBit(a)) return applyOperation('not', 'NOT', [a, constant(1, a.column)], 1, a.column);
  if (a.bits === 0)
    return { misfit: 'NOT needs to know how many bits the number has. Give it to a group of outputs first, or write 15 minus it' };
  return applyOperation('not', 'NOT', [a, constant(2 ** a.bits - 1, a.column)], a.bits, a.column);
}

export function arithmetic(name: 'plus' | 'minus' | 'times' | 'div' | 'mod', says: string, a: Expression, b: Expression): Expression {
  const divisor = name === 'mod' && b.kind === 'constant' && Number.isInteger(Math.log2(b.value)) ? Math.log2(b.value) : 0;
  const made = applyOperation(name, says, [a, b], divisor, a.column);
  // "HOT + T" next to a comparison may have meant HOT OR (T > 25)
  return (a.bits === 1 || b.bits === 1) && (says === '+' || says === '*') && made.kind === 'apply' ? { ...made, blurred: true } : made;
}

const COMPARISONS: Readonly<Record<string, OperationName>> = {
  '=': 'equal',
  '≠': 'unequal',
  '<': 'less',
  '≤': 'atMost',
  '>': 'more',
  '≥': 'atLeast',
};
export const isComparison = (sign: string): boolean => sign in COMPARISONS;

export function comparison(sign: string, a: Expression, b: Expression): Fitted {
  for (const side of [a, b])
    if (side.kind === 'apply' && side.blurred)
      return {
        misfit: `beside ${sign}, ${side.says} could be ${side.says === '+' ? 'OR' : 'AND'} or arithmetic. Put brackets round what is compared, or write ${side.says === '+' ? 'OR or plus' : 'AND or times'}`,
      };
  return applyOperation(COMPARISONS[sign] ?? 'equal', sign, [a, b], 1, a.column);
}

/** What is in brackets is meant as it stands. */
export const bracketed = (e: Expression): Expression => (e.kind === 'apply' && e.blurred ? { ...e, blurred: false } : e);

/** Bits side by side, the most significant first. */
export function group(parts: readonly Expression[], column: number): Fitted {
  let whole: Expression | undefined;
  for (const part of parts) {
    if (part.bits === 0 && !isTruth(part))
      return { misfit: 'a group in { } takes bits and groups, and one of these is a plain number. Write its bits as 0 and 1' };
    const bits = Math.max(1, part.bits);
    whole = whole
      ? applyOperation('beside', 'group', [whole, part, constant(2 ** bits, column)], whole.bits + bits, column)
      : part.bits === 0
        ? { ...part, bits: 1 }
        : part;
  }
  if (!whole) return { misfit: 'the group { } is empty. Name its bits, most significant first' };
  return whole.bits > 32 ? { misfit: `the group has ${whole.bits} bits, and 32 fit` } : whole;
}
