/** What the signs and functions of a rule do with numbers. NaN means: not defined here. NaN in, NaN out. */
import { bcd, digitPattern, excess3, fromBcd, fromGray, gray, onesIn, parity } from '../codes.ts';

export interface Operation {
  readonly does: (a: number, b: number, c: number) => number;
  /** what is wrong where the answer is NaN though the operands are not; the operands follow in words */
  readonly undefinedSays: string;
}

const TOO_LARGE = 'bit by bit it works for 0 to 4294967295';
const WORD = 2 ** 32;

/** Bits of whole numbers from 0 to 2^32 − 1. */
const isWord = (a: number): boolean => a >= 0 && a < WORD;
const bitwise = (f: (a: number, b: number) => number): Operation => ({
  does: (a, b) => (isWord(a) && isWord(b) ? f(a, b) >>> 0 : Number.NaN),
  undefinedSays: TOO_LARGE,
});
const arithmetic = (f: (a: number, b: number) => number, undefinedSays = 'it is too large'): Operation => ({ does: f, undefinedSays });
const compare = (f: (a: number, b: number) => boolean): Operation => ({
  does: (a, b) => (Number.isNaN(a) || Number.isNaN(b) ? Number.NaN : f(a, b) ? 1 : 0),
  undefinedSays: TOO_LARGE,
});
const coded = (f: (a: number) => number, undefinedSays = TOO_LARGE): Operation => ({
  does: (a) => (isWord(a) ? f(a) : Number.NaN),
  undefinedSays,
});

export const OPERATIONS = {
  and: bitwise((a, b) => a & b),
  or: bitwise((a, b) => a | b),
  xor: bitwise((a, b) => a ^ b),
  /** b: all bits of the group */
  not: bitwise((a, b) => a ^ b),
  /** bit b of a */
  bit: bitwise((a, b) => (a >>> b) & 1),
  /** two groups side by side; b: the right one, c: 2^(its bits) */
  beside: { does: (a: number, b: number, c: number) => a * c + b, undefinedSays: 'it is too large' },
  plus: arithmetic((a, b) => a + b),
  minus: arithmetic((a, b) => a - b),
  times: arithmetic((a, b) => a * b),
  div: arithmetic((a, b) => (b === 0 ? Number.NaN : Math.floor(a / b)), 'nothing can be divided by 0'),
  /** never negative for a positive b: (3 − 5) mod 16 is 14 */
  mod: arithmetic((a, b) => (b === 0 ? Number.NaN : a - b * Math.floor(a / b)), 'nothing can be divided by 0'),
  equal: compare((a, b) => a === b),
  unequal: compare((a, b) => a !== b),
  less: compare((a, b) => a < b),
  atMost: compare((a, b) => a <= b),
  more: compare((a, b) => a > b),
  atLeast: compare((a, b) => a >= b),
  choose: { does: (a: number, b: number, c: number) => (Number.isNaN(a) ? a : a ? b : c), undefinedSays: 'it is not defined' },
} as const satisfies Record<string, Operation>;

/** Functions of one number that a rule can call. `bits`: width of the answer for an operand so wide; 0: not known. */
export const FUNCTIONS: Readonly<
  Record<string, { readonly operation: Operation; readonly bits: (operand: number) => number; readonly says: string }>
> = {
  gray: { operation: coded(gray), bits: (n) => n, says: 'the Gray code of a number' },
  fromgray: { operation: coded(fromGray), bits: (n) => n, says: 'the number of a Gray code' },
  bcd: { operation: coded(bcd, 'BCD in 32 bits goes to 99999999'), bits: () => 0, says: 'decimal digits in four bits each' },
  frombcd: { operation: coded(fromBcd, 'a BCD digit goes from 0 to 9'), bits: () => 0, says: 'the number of BCD digits' },
  excess3: { operation: coded(excess3, 'excess-3 is for 0 to 9'), bits: () => 4, says: 'a decimal digit plus three' },
  digit: {
    operation: coded(digitPattern, 'one hexadecimal digit is 0 to 15'),
    bits: () => 7,
    says: 'segments g f e d c b a of a hexadecimal digit',
  },
  ones: { operation: coded(onesIn), bits: () => 0, says: 'how many bits are 1' },
  parity: { operation: coded(parity), bits: () => 1, says: '1 if an odd number of bits is 1' },
};
