/**
 * Intel HEX, `:LLAAAATTDD…CC`: count, address, type, data, and the two's complement of the sum of all bytes before it. Types 00 data, 01 end,
 * 02 segment (× 16), 04 upper half of the address; 03 and 05 (where a program starts) are read over. Revision A of 1988, in sim-core/SOURCES.md.
 */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { type MemoryImage, spansOf } from '../logic/memory-image.ts';
import { hexByte } from '../units/hex.ts';
import { behindEnd, bytesOf, noPairs, recordLines, wrongChecksum } from './hex-records.ts';
import { type FileRead, type MemoryPlace, makePlacer } from './placing.ts';

const END = ':00000001FF';
/** data bytes that the address and segment records must have */
const FIXED: Readonly<Record<number, number>> = { 1: 0, 2: 2, 3: 4, 4: 2, 5: 4 };

/**
 * Refused with the line: what is no record, fails its checksum, has no place in the memory, or is given twice; and a file without its end.
 * Fails with `image/…`.
 */
export function readIntelHex(text: string, place: MemoryPlace): Outcome<FileRead> {
  const placer = makePlacer(place);
  let base = 0;
  let segmented = false;
  let ended = 0;
  for (const { line, at, bare } of recordLines(text)) {
    if (ended > 0) return behindEnd(at, ended);
    const read = readRecord(at, bare);
    if (!read.ok) return read;
    const { offset, type, data } = read.value;
    if (type === 1) ended = line;
    if (type === 2 || type === 4) {
      const word = (data[0] ?? 0) * 256 + (data[1] ?? 0);
      segmented = type === 2;
      base = segmented ? word * 16 : word * 65536;
    }
    if (type !== 0) continue;
    for (const [k, byte] of data.entries()) {
      // inside a segment addresses run round at 64 K
      const wrong = placer.put(base + (segmented ? (offset + k) % 65536 : offset + k), byte, line);
      if (wrong) return { ok: false, failure: wrong };
    }
  }
  if (ended === 0)
    return failed(
      'image/no-end',
      'end',
      `The file has no end record ${END}; it is truncated. Get it from its source again, or add that line if nothing is missing.`,
    );
  return done(placer.finish());
}

interface HexRecord {
  readonly offset: number;
  readonly type: number;
  readonly data: readonly number[];
}

/** One line, with its length, its checksum and its type as they must be. */
function readRecord(at: string, bare: string): Outcome<HexRecord> {
  if (!bare.startsWith(':'))
    return failed(
      'image/not-a-record',
      at,
      `${at} begins with "${bare.slice(0, 12)}", and every line of Intel HEX begins with a colon. Remove it, or choose the right format.`,
    );
  const bytes = bytesOf(bare.slice(1));
  if (!bytes) return noPairs(at, 'the colon', bare.slice(1));
  const [count = 0, high = 0, low = 0, type = 0] = bytes;
  if (bytes.length < 5)
    return failed(
      'image/cut-off',
      at,
      `${at} has ${bytes.length} bytes after the colon, and the shortest record has 5: count, address of two, type, checksum. It was truncated; get the file from its source again.`,
    );
  if (bytes.length !== count + 5)
    return failed(
      'image/cut-off',
      at,
      `${at} says it has ${count} data bytes (${hexByte(count)}), but there are ${bytes.length - 5}. It was truncated or merged; get the file from its source again.`,
    );
  const should = -bytes.slice(0, -1).reduce((s, b) => s + b, 0) & 0xff;
  const reads = bytes.at(-1) ?? 0;
  if (reads !== should) return wrongChecksum(at, reads, should);
  const data = bytes.slice(4, -1);
  const fixed = FIXED[type];
  if (type > 5) return failed('image/not-a-record', at, `${at} is of type ${hexByte(type)}, and types go from 00 to 05. Take it out.`);
  if (fixed !== undefined && data.length !== fixed)
    return failed(
      'image/cut-off',
      at,
      `${at} is of type ${hexByte(type)} and has ${data.length} data bytes; that type has ${fixed}. Get the file from its source again.`,
    );
  return done({ offset: high * 256 + low, type, data });
}

/** Given bytes only. perLine: data bytes in one line, 1 to 255. */
export function writeIntelHex(image: MemoryImage, perLine = 16): string {
  const lines: string[] = [];
  let upper = 0;
  for (const { from, to } of spansOf(image))
    for (let a = from; a < to; ) {
      const high = Math.floor(a / 65536);
      if (high !== upper) {
        lines.push(record(0, 4, [high >> 8, high & 255]));
        upper = high;
      }
      // lines begin at multiples of their length and stay inside 64 K
      const next = Math.min(to, (Math.floor(a / perLine) + 1) * perLine, (high + 1) * 65536);
      lines.push(record(a % 65536, 0, image.bytes.subarray(a, next)));
      a = next;
    }
  return `${[...lines, END].join('\n')}\n`;
}

function record(address: number, type: number, data: ArrayLike<number>): string {
  const bytes = [data.length, address >> 8, address & 255, type, ...Array.from(data)];
  return `:${[...bytes, -bytes.reduce((s, b) => s + b, 0) & 255].map(hexByte).join('')}`;
}
