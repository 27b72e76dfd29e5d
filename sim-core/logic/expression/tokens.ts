/** The signs and words of a rule, each with its column; says what it cannot read. */
import { grouped } from '../../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import { shortened } from '../../../shared/quoted.ts';

export interface Token {
  readonly kind: 'name' | 'number' | 'sign' | 'end';
  /** a sign in its one spelling: "∧" reads as "&", "AND" as "and" */
  readonly text: string;
  readonly value: number;
  /** column of its first sign, from 1 */
  readonly column: number;
}

/** Words that are signs. */
export const WORDS: readonly string[] = 'and or not xor nand nor xnor mod div plus minus times if then else dontcare free when'.split(' ');

/** A sign, and how it may be spelt. */
const SPELLINGS: Readonly<Record<string, string>> = {
  '..': '.. …',
  '&': '&& & ∧',
  '|': '|| | ∨',
  '^': '^ ⊕',
  '!': '! ~ ¬ ¯',
  "'": "' ’ ′",
  '*': '* · ⋅',
  times: '×',
  '+': '+',
  '-': '- −',
  '/': '/',
  mod: '%',
  '=': '== := =',
  '≠': '!= <> ≠',
  '<': '<',
  '≤': '<= ≤',
  '>': '>',
  '≥': '>= ≥',
  '(': '(',
  ')': ')',
  '{': '{',
  '}': '}',
  '[': '[',
  ']': ']',
  ',': ',',
};

/** Longer spellings first. */
const SIGNS = Object.entries(SPELLINGS)
  .flatMap(([text, spelt]) => spelt.split(' ').map((written) => ({ written, text })))
  .sort((a, b) => b.written.length - a.written.length);

const NUMBER = /^(?:0[xX]([0-9A-Fa-f]+)|0[bB]([01]+)|(\d+))(?![\p{L}\p{N}_])/u;
/** A letter or _, then letters, figures, _, and overlines (U+0304, U+0305), which say NOT. */
const NAME = /^[\p{L}_](?:[\p{L}\p{N}_]|\u0304|\u0305)*/u;
const OVERLINE = /\u0304|\u0305/g;
const LARGEST = 2 ** 32 - 1;
/** Twice what a column of a table may be called [characters]. */
const LONGEST_NAME = 80;

/** A line or a part of it, without its comment. `line`: its number; `before`: signs of the line that stand before the part. */
export function tokensOf(text: string, line: number, before = 0): Outcome<readonly Token[]> {
  const tokens: Token[] = [];
  let i = 0;
  const put = (kind: Token['kind'], said: string, length: number, value = 0) => {
    tokens.push({ kind, text: said, value, column: before + i + 1 });
    i += length;
  };
  while (i < text.length) {
    const rest = text.slice(i);
    const at = `line ${line}, column ${before + i + 1}`;
    const number = NUMBER.exec(rest);
    const name = NAME.exec(rest)?.[0];
    const sign = SIGNS.find(({ written }) => rest.startsWith(written));
    if (/^\s/.test(rest)) i++;
    else if (rest.startsWith('"')) {
      const end = rest.indexOf('"', 1);
      if (end < 0) return failed('rules/syntax', at, `${at}: the quotation mark is not closed. Put another one after the name.`);
      put('name', rest.slice(1, end), end + 1);
    } else if (number) {
      const [written, hex, binary, decimal] = number;
      const value = hex ? Number.parseInt(hex, 16) : binary ? Number.parseInt(binary, 2) : Number(decimal);
      if (value > LARGEST)
        return failed('rules/number-too-large', at, `${at}: ${shortened(written)} is too large; numbers go to ${LARGEST}.`);
      put('number', written, written.length, value);
    } else if (name) {
      const bare = name.replace(OVERLINE, '');
      const word = WORDS.includes(bare.toLowerCase());
      put(word ? 'sign' : 'name', word ? bare.toLowerCase() : bare, name.length);
      if (bare !== name) tokens.push({ kind: 'sign', text: "'", value: 0, column: before + i });
    } else if (sign) put('sign', sign.text, sign.written.length);
    else {
      const odd = /^\S+/.exec(rest)?.[0] ?? '';
      const cure = /^\d/.test(odd)
        ? 'A name that begins with a figure goes in quotation marks; numbers are such as 25, 0x1F, 0b101'
        : 'Take it out, or use AND, OR, NOT, XOR, = < > and brackets';
      return failed('rules/syntax', at, `${at}: "${shortened(odd)}" means nothing in a rule. ${cure}.`);
    }
  }
  const long = tokens.find((t) => t.kind === 'name' && t.text.length > LONGEST_NAME);
  if (long) {
    const at = `line ${line}, column ${long.column}`;
    const says = `${at}: the name ${shortened(long.text)} has ${grouped(long.text.length)} characters, and ${LONGEST_NAME} fit. Shorten it.`;
    return failed('rules/too-long', at, says);
  }
  put('end', 'the end of the line', 0);
  return done(tokens);
}
