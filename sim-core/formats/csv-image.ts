/** Bytes as a spreadsheet has them: an address, then its byte and those of the addresses behind it. 0x… is hexadecimal, plain figures are decimal. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { shortened } from '../../shared/quoted.ts';
import type { MemoryImage } from '../logic/memory-image.ts';
import { hexAddress, hexByte } from '../units/hex.ts';
import { type FileRead, type MemoryPlace, makePlacer } from './placing.ts';
import { csvCell, readSeparated } from './separated.ts';

/**
 * Refused with the line: what is no address or byte, has no place in the memory, or is given twice.
 * Fails with `image/…` or `table/open-quotes`.
 */
export function readCsvImage(text: string, place: MemoryPlace): Outcome<FileRead> {
  const rows = readSeparated(text);
  if (!rows.ok) return rows;
  const placer = makePlacer(place);
  for (const [i, { line, cells }] of rows.value.entries()) {
    const [first = '', ...bytes] = cells;
    // a heading has no figures to begin with
    if (i === 0 && !/^\d/.test(first)) continue;
    const at = `line ${line}`;
    const address = numberOf(first);
    if (address === undefined) return failed('image/not-an-address', at, `${at}: "${shortened(first)}" is no address. ${cureOf(first)}.`);
    for (const [k, cell] of bytes.entries()) {
      if (cell === '') continue;
      const byte = numberOf(cell);
      if (byte === undefined) return failed('image/not-a-byte', at, `${at}: "${shortened(cell)}" is no byte. ${cureOf(cell)}.`);
      if (byte > 255)
        return failed(
          'image/not-a-byte',
          at,
          `${at}: ${shortened(cell)} does not fit into a byte, which goes from 0 to 255 (0xFF). Correct it.`,
        );
      const wrong = placer.put(address + k, byte, line);
      if (wrong) return { ok: false, failure: wrong };
    }
  }
  return done(placer.finish());
}

/** One line a given byte. */
export function writeCsvImage(image: MemoryImage): string {
  const lines = ['address,byte'];
  for (let a = 0; a < image.bytes.length; a++)
    if (image.given[a] !== 0) lines.push(`${csvCell(hexAddress(a, image.bytes.length))},0x${hexByte(image.bytes[a] ?? 0)}`);
  return `${lines.join('\n')}\n`;
}

function numberOf(text: string): number | undefined {
  if (/^0x[0-9A-F]{1,8}$/i.test(text)) return Number.parseInt(text.slice(2), 16);
  if (/^0b[01]{1,16}$/i.test(text)) return Number.parseInt(text.slice(2), 2);
  return /^\d{1,10}$/.test(text) ? Number(text) : undefined;
}

const cureOf = (text: string): string =>
  /^[0-9A-F]+$/i.test(text) ? `Write 0x${shortened(text.toUpperCase())} if it is hexadecimal` : 'Write a number such as 63 or 0x3F';
