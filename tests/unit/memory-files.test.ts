/** Memory images in and out of files, and what is said of files that are damaged. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Outcome } from '../../shared/outcome.ts';
import { readCsvImage, writeCsvImage } from '../../sim-core/formats/csv-image.ts';
import { readIntelHex, writeIntelHex } from '../../sim-core/formats/intel-hex.ts';
import type { FileRead } from '../../sim-core/formats/placing.ts';
import { readRawImage, writeRawImage } from '../../sim-core/formats/raw-image.ts';
import { readSRecord, writeSRecord } from '../../sim-core/formats/s-record.ts';
import { type MemoryImage, mergeImages, wholeImage } from '../../sim-core/logic/memory-image.ts';

/** An image of which random bytes are given, the rest is 0xFF. */
const image = fc.constantFrom(16, 2048, 65_536, 131_072).chain((size) =>
  fc.array(fc.tuple(fc.nat(size - 1), fc.uint8Array({ minLength: 1, maxLength: 40 })), { maxLength: 12 }).map((runs): MemoryImage => {
    const made = { bytes: new Uint8Array(size).fill(0xff), given: new Uint8Array(size) };
    for (const [from, bytes] of runs)
      for (const [k, b] of bytes.entries())
        if (from + k < size) {
          made.bytes[from + k] = b;
          made.given[from + k] = 0xff;
        }
    return made;
  }),
);
const heart = (read: Outcome<FileRead>): MemoryImage => {
  if (!read.ok) throw new Error(read.failure.says);
  return read.value.image;
};
const says = (read: Outcome<FileRead>): string => (read.ok ? `read: ${read.value.remarks.join(' ')}` : read.failure.says);

describe('an image goes out and comes back the same', () => {
  test.each([
    ['Intel HEX', (i: MemoryImage, n: number) => readIntelHex(writeIntelHex(i, n), { size: i.bytes.length })],
    ['S-record', (i: MemoryImage, n: number) => readSRecord(writeSRecord(i, 'lampwright', n), { size: i.bytes.length })],
    ['CSV', (i: MemoryImage) => readCsvImage(writeCsvImage(i), { size: i.bytes.length })],
  ])('as %s', (_, through) => {
    fc.assert(
      fc.property(image, fc.integer({ min: 1, max: 64 }), (i, n) => {
        const back = heart(through(i, n));
        expect(Buffer.compare(back.bytes, i.bytes)).toBe(0);
        expect(Buffer.compare(back.given, i.given)).toBe(0);
      }),
      { numRuns: 60 },
    );
  });

  test('as raw bytes, of which all count', () => {
    const bytes = Uint8Array.from({ length: 32 }, (_, i) => i * 7);
    expect(heart(readRawImage(writeRawImage(wholeImage(bytes)), { size: 32 }))).toEqual(wholeImage(bytes));
    expect(says(readRawImage(bytes, { size: 16 }))).toBe(
      'The file has 32 bytes, and 16 fit into this memory. Choose a larger memory, or cut the file.',
    );
    expect(says(readRawImage(bytes, { size: 64 }))).toBe('read: The file does not give 0x20 to 0x3F: these 32 bytes stay FF.');
    expect([...heart(readRawImage(bytes, { size: 4, from: 28 })).bytes]).toEqual([196, 203, 210, 217]);
  });
});

test('any change of one sign of a HEX or S-record line is noticed', () => {
  const bytes = wholeImage(Uint8Array.from({ length: 32 }, (_, i) => (i * 37) & 255));
  for (const [text, read] of [
    [writeIntelHex(bytes), readIntelHex],
    [writeSRecord(bytes), readSRecord],
  ] as const)
    for (let i = 0; i < text.length; i++) {
      if (!/[0-9A-F]/.test(text.charAt(i)) || (read === readSRecord && (i === 0 || text[i - 1] === 'S'))) continue;
      for (const other of '0123456789ABCDEF') {
        if (other === text[i]) continue;
        const changed = read(`${text.slice(0, i)}${other}${text.slice(i + 1)}`, { size: 64 });
        expect(changed.ok, `sign ${i} to ${other}`).toBe(false);
      }
    }
});

describe('a damaged HEX file', () => {
  const GOOD = ':04000000010203 04F2'.replace(' ', '');
  test.each([
    [
      'a wrong checksum',
      `${GOOD}\n:0400040005060708E3\n:00000001FF`,
      'line 2: its checksum reads E3, but its bytes make DE. Get the file from its source again; if the bytes are right, write DE.',
    ],
    [
      'a wrong count',
      ':0500000001020304F2\n:00000001FF',
      'line 1 says it has 5 data bytes (05), but there are 4. It was truncated or merged; get the file from its source again.',
    ],
    [
      'an overlap',
      `${GOOD}\n:01000200 0AF3\n:00000001FF`.replace(' ', ''),
      'line 2: address 0x02 is given twice: 03 by line 1, 0A by line 2. Remove one of the lines.',
    ],
    [
      'too large an address',
      ':01001000AA45\n:00000001FF',
      'line 1: address 0x10 is past the end of the memory; its 16 bytes reach to 0x0F. Choose a larger memory, or say at which address of the file it begins.',
    ],
    [
      'no end',
      GOOD,
      'The file has no end record :00000001FF; it is truncated. Get it from its source again, or add that line if nothing is missing.',
    ],
    ['lines behind the end', `:00000001FF\n${GOOD}`, 'line 2 is after the end record of line 1. Remove it, or remove that end record.'],
    [
      'another format',
      'S9030000FC',
      'line 1 begins with "S9030000FC", and every line of Intel HEX begins with a colon. Remove it, or choose the right format.',
    ],
    [
      'other letters',
      ':0G000000',
      'line 1: pairs of hexadecimal digits must follow the colon, and "G" is none. Get the file from its source again.',
    ],
    [
      'a record that ends at once',
      ':00\n:00000001FF',
      'line 1 has 1 bytes after the colon, and the shortest record has 5: count, address of two, type, checksum. It was truncated; get the file from its source again.',
    ],
    ['an unknown type', ':00000006FA\n:00000001FF', 'line 1 is of type 06, and types go from 00 to 05. Take it out.'],
  ])('with %s', (_, text, sentence) => {
    expect(says(readIntelHex(text, { size: 16 }))).toBe(sentence);
  });

  test('with gaps is read, and the gaps are told', () => {
    expect(says(readIntelHex(`${GOOD}\n:01000800AA4D\n:00000001FF`, { size: 16, fill: 0 }))).toBe(
      'read: The file does not give 0x04 to 0x07, 0x09 to 0x0F: these 11 bytes stay 00.',
    );
  });
});

describe('a damaged S-record file', () => {
  const GOOD = 'S107000001020304EE';
  test.each([
    [
      'a wrong checksum',
      `${GOOD}\nS10700040506070800`,
      'line 2: its checksum reads 00, but its bytes make DA. Get the file from its source again; if the bytes are right, write DA.',
    ],
    [
      'a wrong count',
      'S109000001020304EE',
      'line 1 says that 9 bytes follow (09), but there are 7, and an S1 line has at least 3. Get the file from its source again.',
    ],
    [
      'a lost line',
      `${GOOD}\nS5030002FA\nS9030000FC`,
      'line 2 counts 2 data lines, but 1 come before it. Lines were lost or doubled; get the file from its source again.',
    ],
    [
      'no end',
      GOOD,
      'The file has no end record S9, S8 or S7; it is truncated. Get it from its source again, or add S9030000FC if nothing is missing.',
    ],
    [
      'a count of lines that brings data',
      `${GOOD}\nS504000109F1\nS9030000FC`,
      'line 2 is an S5 line and has 1 data bytes; it may have none. Get the file from its source again.',
    ],
    [
      'a type that is not in use',
      'S4030000FC',
      'line 1 begins with "S4030000FC", and every S-record begins with S0 to S9 (but not S4). Remove it, or choose the right format.',
    ],
    [
      'an overlap',
      `${GOOD}\n${GOOD}\nS9030000FC`,
      'line 2: address 0x00 is given twice: 01 by line 1, 01 by line 2. Remove one of the lines.',
    ],
  ])('with %s', (_, text, sentence) => {
    expect(says(readSRecord(text, { size: 16 }))).toBe(sentence);
  });
});

describe('bytes from a spreadsheet', () => {
  test('come with headings, several to a line, decimal and hexadecimal', () => {
    const read = heart(readCsvImage('address;byte\n0x2;63;0x06\n"8";255\n', { size: 16, fill: 0 }));
    expect([...read.bytes]).toEqual([0, 0, 63, 6, 0, 0, 0, 0, 255, 0, 0, 0, 0, 0, 0, 0]);
  });
  test.each([
    ['0,3F', 'line 1: "3F" is no byte. Write 0x3F if it is hexadecimal.'],
    ['0,1\n1,256', 'line 2: 256 does not fit into a byte, which goes from 0 to 255 (0xFF). Correct it.'],
    ['address,byte\nA,1', 'line 2: "A" is no address. Write 0xA if it is hexadecimal.'],
    ['0,"1', 'line 1: a quotation mark is not closed. Put another one at the end of its cell.'],
  ])('%s is refused', (text, sentence) => {
    expect(says(readCsvImage(text, { size: 16 }))).toBe(sentence);
  });
});

test('any text is read or refused in one sentence', () => {
  fc.assert(
    fc.property(
      fc.oneof(
        fc.string(),
        fc.array(fc.constantFrom(':', 'S1', '00', 'FF', '04', '\n', 'G', ',', '"', '0x1')).map((a) => a.join('')),
      ),
      (text) => {
        for (const read of [readIntelHex, readSRecord, readCsvImage]) {
          const got = read(text, { size: 64 });
          if (!got.ok) expect(got.failure.says).toMatch(/\.$/);
        }
      },
    ),
    { numRuns: 1000 },
  );
});

describe('two images', () => {
  const part = (at: number, byte: number): MemoryImage => {
    const made = { bytes: new Uint8Array(4).fill(0xff), given: new Uint8Array(4) };
    made.bytes[at] = byte;
    made.given[at] = 0xff;
    return made;
  };
  test('become one', () => {
    const merged = mergeImages(part(0, 1), part(2, 3));
    expect(merged.ok && [...merged.value.bytes]).toEqual([1, 0xff, 3, 0xff]);
    const clash = mergeImages(part(1, 1), part(1, 3));
    expect(clash.ok ? '' : clash.failure.says).toBe('Address 0x01 holds 01 in one image and 03 in the other. Say which of the two counts.');
    const won = mergeImages(part(1, 1), part(1, 3), 'second');
    expect(won.ok && won.value.bytes[1]).toBe(3);
    expect(mergeImages(part(0, 1), wholeImage(new Uint8Array(8))).ok).toBe(false);
  });
});
