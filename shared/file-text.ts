/** The text of a file from its bytes: UTF-8, UTF-16 or Windows-1252, as spreadsheets and editors write them; what is none of them is refused with the reason. */
import { done, failed, type Outcome } from './outcome.ts';

/** A byte order mark says which it is; without one, Western text in UTF-16 has nothing but zeros in every other byte. */
function markedAs(bytes: Uint8Array): string | undefined {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return 'utf-8';
  if (a === 0xff && b === 0xfe) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  const some = bytes.subarray(0, 64);
  const zeros = (from: 0 | 1) => some.every((byte, i) => i % 2 !== from || byte === 0);
  if (some.length >= 4 && zeros(1)) return 'utf-16le';
  return some.length >= 4 && zeros(0) ? 'utf-16be' : undefined;
}

/** Its first bytes are those of a ZIP archive, which is what a workbook is, and a document of a word processor. */
const isArchive = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;

/** Below the space a text has tab, line ends and form feed; what decoders make of the bytes to which Windows-1252 gives no character lies at 80 to 9F. */
const isControl = (code: number): boolean => (code < 0x20 && !(code >= 9 && code <= 13 && code !== 11)) || (code >= 0x80 && code <= 0x9f);

function hasControls(text: string): boolean {
  for (let i = 0; i < text.length; i++) if (isControl(text.charCodeAt(i))) return true;
  return false;
}

function decoded(bytes: Uint8Array, as: string): string | undefined {
  try {
    return new TextDecoder(as, { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

/** Windows-1252 from 80 to 9F (Encoding Standard, index windows-1252); some versions of Node decode these bytes as ISO 8859-1. */
const WESTERN = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

function western(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += byte >= 0x80 && byte < 0xa0 ? WESTERN.charAt(byte - 0x80) : String.fromCharCode(byte);
  return text;
}

/** name: of the file, for the sentence. Without a byte order mark in the answer. Fails with `file/not-text`. */
export function textOfFile(bytes: Uint8Array, name: string): Outcome<string> {
  const refused = (says: string) => failed('file/not-text', name, `${name} ${says}`);
  if (isArchive(bytes))
    return refused('is a workbook or an archive, not text. Save the table as CSV, or unpack the archive, and open that file.');
  const marked = markedAs(bytes);
  const text = marked === undefined ? (decoded(bytes, 'utf-8') ?? western(bytes)) : decoded(bytes, marked);
  if (text === undefined)
    return refused(`begins as ${marked?.toUpperCase()} text, but has bytes that are none; it may be cut off. Save it again as UTF-8.`);
  if (hasControls(text))
    return refused('is not text in UTF-8, UTF-16 or Windows-1252: it has characters that no text has. Save it as UTF-8.');
  return done(text);
}
