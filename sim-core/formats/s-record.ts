/**
 * S-record, `STnnAA…DD…CC`: type, count of all bytes behind it, address of 2, 3 or 4 bytes, data, and the ones' complement of the sum of count,
 * address and data. S0 heading, S1 S2 S3 data, S5 S6 how many data lines, S9 S8 S7 end. Field rules: sim-core/SOURCES.md.
 */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { type MemoryImage, spansOf } from '../logic/memory-image.ts';
import { hexByte } from '../units/hex.ts';
import { behindEnd, bytesOf, noPairs, recordLines, wrongChecksum } from './hex-records.ts';
import { type FileRead, type MemoryPlace, makePlacer } from './placing.ts';

/** address bytes of each type; S4 is not in use */
const ADDRESS_BYTES: Readonly<Record<string, number>> = { '0': 2, '1': 2, '2': 3, '3': 4, '5': 2, '6': 3, '7': 4, '8': 3, '9': 2 };

/**
 * Refused with the line: what is no record, fails its checksum, has no place in the memory, or is given twice; and a file without its end.
 * Fails with `image/…`.
 */
export function readSRecord(text: string, place: MemoryPlace): Outcome<FileRead> {
  const placer = makePlacer(place);
  let dataLines = 0;
  let ended = 0;
  for (const { line, at, bare } of recordLines(text)) {
    if (ended > 0) return behindEnd(at, ended);
    const type = /^[Ss](\d)/.exec(bare)?.[1] ?? '';
    const width = ADDRESS_BYTES[type];
    if (width === undefined)
      return failed(
        'image/not-a-record',
        at,
        `${at} begins with "${bare.slice(0, 12)}", and every S-record begins with S0 to S9 (but not S4). Remove it, or choose the right format.`,
      );
    const bytes = bytesOf(bare.slice(2));
    if (!bytes) return noPairs(at, `S${type}`, bare.slice(2));
    const count = bytes[0] ?? 0;
    if (count !== bytes.length - 1 || count < width + 1)
      return failed(
        'image/cut-off',
        at,
        `${at} says that ${count} bytes follow (${hexByte(count)}), but there are ${Math.max(0, bytes.length - 1)}, and an S${type} line has at least ${width + 1}. Get the file from its source again.`,
      );
    if ('56789'.includes(type) && count !== width + 1)
      return failed(
        'image/cut-off',
        at,
        `${at} is an S${type} line and has ${count - width - 1} data bytes; it may have none. Get the file from its source again.`,
      );
    const should = ~bytes.slice(0, -1).reduce((s, b) => s + b, 0) & 0xff;
    const reads = bytes.at(-1) ?? 0;
    if (reads !== should) return wrongChecksum(at, reads, should);
    const address = bytes.slice(1, 1 + width).reduce((a, b) => a * 256 + b, 0);
    if ('123'.includes(type)) {
      dataLines++;
      for (const [k, byte] of bytes.slice(1 + width, -1).entries()) {
        const wrong = placer.put(address + k, byte, line);
        if (wrong) return { ok: false, failure: wrong };
      }
    } else if ('56'.includes(type)) {
      if (address !== dataLines)
        return failed(
          'image/wrong-count',
          at,
          `${at} counts ${address} data lines, but ${dataLines} come before it. Lines were lost or doubled; get the file from its source again.`,
        );
    } else if ('789'.includes(type)) ended = line;
  }
  if (ended === 0)
    return failed(
      'image/no-end',
      'end',
      'The file has no end record S9, S8 or S7; it is truncated. Get it from its source again, or add S9030000FC if nothing is missing.',
    );
  return done(placer.finish());
}

/** Given bytes only, with a heading (ASCII), the count of lines and an end. perLine: data bytes in one line, 1 to 250. */
export function writeSRecord(image: MemoryImage, heading = '', perLine = 16): string {
  const width = image.bytes.length <= 0x1_0000 ? 2 : image.bytes.length <= 0x100_0000 ? 3 : 4;
  const lines = [
    record(
      '0',
      2,
      0,
      [...heading].slice(0, 40).map((c) => c.charCodeAt(0) & 127),
    ),
  ];
  for (const { from, to } of spansOf(image))
    for (let a = from; a < to; ) {
      const next = Math.min(to, (Math.floor(a / perLine) + 1) * perLine);
      lines.push(record(String(width - 1), width, a, [...image.bytes.subarray(a, next)]));
      a = next;
    }
  const count = lines.length - 1;
  if (count < 0x1_0000) lines.push(record('5', 2, count, []));
  lines.push(record(String(11 - width), width, 0, []));
  return `${lines.join('\n')}\n`;
}

function record(type: string, width: number, address: number, data: readonly number[]): string {
  const place = Array.from({ length: width }, (_, i) => Math.floor(address / 256 ** (width - 1 - i)) & 255);
  const bytes = [width + data.length + 1, ...place, ...data];
  return `S${type}${[...bytes, ~bytes.reduce((s, b) => s + b, 0) & 255].map(hexByte).join('')}`;
}
