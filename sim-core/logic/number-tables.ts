/** Tables that a person asks for by name instead of by rows: codes, digits and sums, each as the rule line that makes it. */

/** One of them: its name, its columns and the rule that fills it. */
export interface NumberTable {
  readonly id: string;
  readonly title: string;
  /** outputs needed for so many inputs, the most significant first */
  readonly outputs: (inputs: number) => readonly string[];
  /** number: how the rule names the number at the inputs, such as A3..A0; outputs: as the rule names them, such as {g..a} */
  readonly rule: (number: string, outputs: string) => string;
}

const counted = (letter: string, count: number): readonly string[] => Array.from({ length: count }, (_, i) => `${letter}${count - 1 - i}`);

/** Tables that are asked for by name: codes, digits and sums, each as the rule that makes it. */
export const NUMBER_TABLES: readonly NumberTable[] = [
  {
    id: 'digit',
    title: 'Hexadecimal digit on a 7-segment display',
    outputs: () => ['g', 'f', 'e', 'd', 'c', 'b', 'a'],
    rule: (n, out) => `${out} = digit(${n})\nfree when ${n} > 15`,
  },
  {
    id: 'decimal-digit',
    title: 'Decimal digit on a 7-segment display',
    outputs: () => ['g', 'f', 'e', 'd', 'c', 'b', 'a'],
    rule: (n, out) => `${out} = digit(${n})\nfree when ${n} > 9`,
  },
  { id: 'gray', title: 'Binary to Gray code', outputs: (n) => counted('G', n), rule: (n, out) => `${out} = gray(${n})` },
  { id: 'from-gray', title: 'Gray code to binary', outputs: (n) => counted('B', n), rule: (n, out) => `${out} = fromgray(${n})` },
  {
    id: 'bcd',
    title: 'Binary to BCD',
    outputs: (n) => counted('Q', 4 * String(2 ** n - 1).length),
    rule: (n, out) => `${out} = bcd(${n})`,
  },
  {
    id: 'excess-3',
    title: 'Decimal digit to excess-3',
    outputs: () => counted('X', 4),
    rule: (n, out) => `${out} = excess3(${n})\nfree when ${n} > 9`,
  },
  { id: 'square', title: 'Square of a number', outputs: (n) => counted('Q', 2 * n), rule: (n, out) => `${out} = ${n} times ${n}` },
  { id: 'ones', title: 'How many inputs are 1', outputs: (n) => counted('Q', 32 - Math.clz32(n)), rule: (n, out) => `${out} = ones(${n})` },
  { id: 'parity', title: 'Parity: 1 for an odd number of ones', outputs: () => ['P'], rule: (n, out) => `${out} = parity(${n})` },
];
