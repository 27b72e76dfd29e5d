/** What formats of hexadecimal records share: their lines, pairs of figures as bytes, and the sentences on a record that does not fit. */
import { failed, type Outcome } from '../../shared/outcome.ts';
import { shortened } from '../../shared/quoted.ts';
import { hexByte } from '../units/hex.ts';

interface RecordLine {
  /** from 1 */
  readonly line: number;
  /** as failures name it */
  readonly at: string;
  /** without blanks round it; never empty */
  readonly bare: string;
}

export const recordLines = (text: string): readonly RecordLine[] =>
  text
    .split(/\r\n|\n|\r/)
    .map((written, i) => ({ line: i + 1, at: `line ${i + 1}`, bare: written.trim() }))
    .filter(({ bare }) => bare !== '');

/** Pairs of hexadecimal figures as bytes; undefined if the text is anything else. */
export function bytesOf(text: string): number[] | undefined {
  if (text.length % 2 !== 0 || !/^[0-9A-Fa-f]*$/.test(text)) return undefined;
  return Array.from({ length: text.length / 2 }, (_, i) => Number.parseInt(text.slice(2 * i, 2 * i + 2), 16));
}

/** mark: what a record begins with, by name. */
export function noPairs(at: string, mark: string, text: string): Outcome<never> {
  const odd = /[^0-9A-Fa-f]+/.exec(text)?.[0] ?? text.slice(-1);
  return failed(
    'image/not-a-record',
    at,
    `${at}: pairs of hexadecimal digits must follow ${mark}, and "${shortened(odd)}" is none. Get the file from its source again.`,
  );
}

/** ended: line of the end record. */
export const behindEnd = (at: string, ended: number): Outcome<never> =>
  failed('image/after-end', at, `${at} is after the end record of line ${ended}. Remove it, or remove that end record.`);

export const wrongChecksum = (at: string, reads: number, should: number): Outcome<never> =>
  failed(
    'image/wrong-checksum',
    at,
    `${at}: its checksum reads ${hexByte(reads)}, but its bytes make ${hexByte(should)}. Get the file from its source again; if the bytes are right, write ${hexByte(should)}.`,
  );
