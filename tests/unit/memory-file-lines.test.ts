/** Memory files line by line: what is written to the letter, and every line that a reader refuses, at the edge of what it takes. */
import { describe, expect, test } from 'vitest';
import type { Outcome } from '../../shared/outcome.ts';
import { readCsvImage, writeCsvImage } from '../../sim-core/formats/csv-image.ts';
import { readIntelHex, writeIntelHex } from '../../sim-core/formats/intel-hex.ts';
import type { FileRead } from '../../sim-core/formats/placing.ts';
import { readRawImage, writeRawImage } from '../../sim-core/formats/raw-image.ts';
import { readSRecord, writeSRecord } from '../../sim-core/formats/s-record.ts';
import { csvCell, readSeparated } from '../../sim-core/formats/separated.ts';
import { writeVcd } from '../../sim-core/formats/vcd.ts';
import type { MemoryImage } from '../../sim-core/logic/memory-image.ts';

/** An image of this size in which these bytes are given. */
function image(size: number, given: Readonly<Record<number, readonly number[]>>): MemoryImage {
  const made = { bytes: new Uint8Array(size).fill(0xff), given: new Uint8Array(size) };
  for (const [from, bytes] of Object.entries(given))
    for (const [k, b] of bytes.entries()) {
      made.bytes[Number(from) + k] = b;
      made.given[Number(from) + k] = 0xff;
    }
  return made;
}
const lines = (text: string): string[] => text.trimEnd().split('\n');
const says = (read: Outcome<FileRead>): string => (read.ok ? `read: ${read.value.remarks.join(' ')}` : read.failure.says);
const bytesOf = (read: Outcome<FileRead>): number[] => {
  if (!read.ok) throw new Error(read.failure.says);
  return [...read.value.image.bytes];
};

/** A record with its checksum, by the formats' own definitions. */
const sum = (hex: string): number => (hex.match(/../g) ?? []).reduce((s, pair) => s + Number.parseInt(pair, 16), 0);
const hexLine = (hex: string): string => `:${hex}${((-sum(hex) & 255) + 256).toString(16).slice(-2).toUpperCase()}`;
const sLine = (type: number, hex: string): string => `S${type}${hex}${((~sum(hex) & 255) + 256).toString(16).slice(-2).toUpperCase()}`;

describe('S-records are written', () => {
  test('with a heading, lines at multiples of their length, their count, and an end', () => {
    const written = writeSRecord(image(32, { 3: [1, 2, 3], 16: [0xaa] }), 'ab', 4);
    expect(lines(written)).toEqual([
      sLine(0, '0500006162'),
      sLine(1, '04000301'),
      sLine(1, '0500040203'),
      sLine(1, '040010AA'),
      sLine(5, '030003'),
      sLine(9, '030000'),
    ]);
    expect(written.endsWith('\n')).toBe(true);
  });
  test('with sixteen bytes a line, and of the heading the first forty letters', () => {
    const sixteen = Array.from({ length: 17 }, (_, i) => i);
    const [heading, first, second] = lines(writeSRecord(image(32, { 0: sixteen }), 'x'.repeat(50)));
    expect(heading).toBe(sLine(0, `2B0000${'78'.repeat(40)}`));
    expect(first).toBe(
      sLine(
        1,
        `130000${sixteen
          .slice(0, 16)
          .map((b) => `0${b.toString(16)}`.toUpperCase())
          .join('')}`,
      ),
    );
    expect(second).toBe(sLine(1, '04001010'));
    expect(lines(writeSRecord(image(16, {})))).toEqual([sLine(0, '030000'), sLine(5, '030000'), sLine(9, '030000')]);
  });
  test('with their count as long as it has four digits, and without it beyond', () => {
    const counts = (n: number) =>
      lines(writeSRecord(image(n, { 0: Array.from({ length: n }, () => 1) }), '', 1)).filter((l) => l.startsWith('S5'));
    expect(counts(0xffff)).toEqual([sLine(5, '03FFFF')]);
    expect(counts(0x1_0000)).toEqual([]);
  });
  test.each([
    [0x1_0000, 1, '04FFFF05', 9],
    [0x1_0001, 2, '0501000005', 8],
    [0x100_0000, 2, '05FFFFFF05', 8],
    [0x100_0001, 3, '060100000005', 7],
  ])('of %i bytes with as long an address as that takes', (size, type, data, end) => {
    const written = lines(writeSRecord(image(size, { [size - 1]: [5] })));
    expect(written[1]).toBe(sLine(type, data));
    expect(written.at(-1)?.slice(0, 2)).toBe(`S${end}`);
  });
});

describe('S-records are read', () => {
  const END = sLine(9, '030000');
  test('of every address length, in small letters too, with the count of either length', () => {
    const text = [
      `s1${sLine(1, '0400010A').slice(2).toLowerCase()}`,
      sLine(2, '050000020B'),
      sLine(3, '06000000030C'),
      sLine(6, '04000003'),
      sLine(7, '0500000000'),
    ].join('\r\n');
    expect(bytesOf(readSRecord(text, { size: 4, fill: 0 }))).toEqual([0, 10, 11, 12]);
    expect(bytesOf(readSRecord([sLine(1, '0400010A'), sLine(5, '030001'), sLine(8, '04000000')].join('\r'), { size: 2, fill: 0 }))).toEqual(
      [0, 10],
    );
  });
  test.each([
    [
      'too short for its address',
      sLine(1, '0200'),
      'line 1 says that 2 bytes follow (02), but there are 2, and an S1 line has at least 3.',
    ],
    ['without any byte', 'S1', 'line 1 says that 0 bytes follow (00), but there are 0, and an S1 line has at least 3.'],
    ['an end that brings data', sLine(9, '04000001'), 'line 1 is an S9 line and has 1 data bytes; it may have none.'],
    ['half a byte', 'S1030', 'line 1: pairs of hexadecimal digits must follow S1, and "0" is none.'],
    [
      'a count that is wrong',
      [sLine(1, '0400010A'), sLine(6, '04000000'), END].join('\n'),
      'line 2 counts 0 data lines, but 1 come before it.',
    ],
    ['something behind the end', [END, END].join('\n'), 'line 2 is after the end record of line 1.'],
    ['no letter S', 'T1030000FC', 'line 1 begins with "T1030000FC", and every S-record begins with S0 to S9'],
  ])('but not a line %s', (_, text, sentence) => {
    expect(says(readSRecord(text, { size: 4 })).slice(0, sentence.length)).toBe(sentence);
  });
  test('a line without data is no harm, and counts', () => {
    expect(says(readSRecord([sLine(1, '030000'), sLine(5, '030001'), END].join('\n'), { size: 1, fill: 0 }))).toBe(
      'read: The file gives no bytes; all 1 stay 00.',
    );
  });
});

describe('Intel HEX is written', () => {
  test('with lines at multiples of their length and the end record', () => {
    expect(lines(writeIntelHex(image(32, { 3: [1, 2, 3], 16: [0xaa] }), 4))).toEqual([
      hexLine('0100030001'),
      hexLine('020004000203'),
      hexLine('01001000AA'),
      ':00000001FF',
    ]);
  });
  test('with the upper half of the address where it changes, and no line over 64 K', () => {
    const written = lines(writeIntelHex(image(0x3_0000, { 65534: [1, 2, 3, 4], 131088: [5] }), 16));
    expect(written).toEqual([
      hexLine('02FFFE000102'),
      hexLine('020000040001'),
      hexLine('020000000304'),
      hexLine('020000040002'),
      hexLine('0100100005'),
      ':00000001FF',
    ]);
  });
});

describe('Intel HEX is read', () => {
  const END = ':00000001FF';
  test('with segments, in which addresses run round, and with upper halves, in which they do not', () => {
    const segment = [hexLine('020000020001'), hexLine('02FFFF000A0B'), END].join('\n');
    expect(says(readIntelHex(segment, { size: 32 }))).toContain('address 0x1000F is past the end');
    expect(
      bytesOf(readIntelHex([hexLine('020000020001'), hexLine('020000000A0B'), END].join('\n'), { size: 18, fill: 0 })).slice(16),
    ).toEqual([10, 11]);
    const round = bytesOf(readIntelHex([hexLine('020000020000'), hexLine('02FFFF000A0B'), END].join('\n'), { size: 0x1_0000, fill: 0 }));
    expect([round[0xffff], round[0]]).toEqual([10, 11]);
    const upper = bytesOf(readIntelHex([hexLine('020000040000'), hexLine('02FFFF000A0B'), END].join('\n'), { size: 0x1_0001, fill: 0 }));
    expect([upper[0xffff], upper[0x1_0000], upper[0]]).toEqual([10, 11, 0]);
    const segment256 = bytesOf(readIntelHex([hexLine('020000020100'), hexLine('010002000A'), END].join('\n'), { size: 0x1003, fill: 0 }));
    expect(segment256[0x1002]).toBe(10);
    const offset256 = bytesOf(readIntelHex([hexLine('010102000A'), END].join('\n'), { size: 0x103, fill: 0 }));
    expect(offset256[0x102]).toBe(10);
    const second = bytesOf(readIntelHex([hexLine('020000040001'), hexLine('010000000A'), END].join('\n'), { size: 0x1_0001, fill: 0 }));
    expect(second[0x1_0000]).toBe(10);
  });
  test('over the records that say where a program starts', () => {
    const text = [hexLine('0400000300001234'), hexLine('0400000500001234'), hexLine('010000000A'), END].join('\n');
    expect(bytesOf(readIntelHex(text, { size: 1 }))).toEqual([10]);
  });
  test.each([
    ['that is cut', ':000000', 'line 1 has 3 bytes after the colon, and the shortest record has 5'],
    ['with more than it says', hexLine('01000000AABB'), 'line 1 says it has 1 data bytes (01), but there are 2.'],
    ['of type 04 with one byte', hexLine('0100000401'), 'line 1 is of type 04 and has 1 data bytes; that type has 2.'],
    ['of type 01 with one byte', hexLine('0100000101'), 'line 1 is of type 01 and has 1 data bytes; that type has 0.'],
    ['of type 03 with two bytes', hexLine('020000030001'), 'line 1 is of type 03 and has 2 data bytes; that type has 4.'],
    ['of type 05 with two bytes', hexLine('020000050001'), 'line 1 is of type 05 and has 2 data bytes; that type has 4.'],
    ['of type 02 with none', hexLine('00000002'), 'line 1 is of type 02 and has 0 data bytes; that type has 2.'],
    ['behind the end', `${END}\n\n${END}`, 'line 3 is after the end record of line 1.'],
  ])('but not a line %s', (_, text, sentence) => {
    expect(says(readIntelHex(text, { size: 4 })).slice(0, sentence.length)).toBe(sentence);
  });
});

describe('bytes of a spreadsheet', () => {
  test('are written one a line, with as many figures of the address as the memory has', () => {
    expect(lines(writeCsvImage(image(4096, { 10: [0, 0x5a] })))).toEqual(['address,byte', '0x00A,0x00', '0x00B,0x5A']);
    expect(lines(writeCsvImage(image(16, { 15: [1] })))).toEqual(['address,byte', '0x0F,0x01']);
  });
  test('are read in every kind of number, with empty cells left out', () => {
    expect(bytesOf(readCsvImage('0b1,0b11,,0xfF\n0,9', { size: 4, fill: 0 }))).toEqual([9, 3, 0, 255]);
    expect(bytesOf(readCsvImage('0,255', { size: 1 }))).toEqual([255]);
  });
  test.each([
    ['1.5,1', 'line 1: "1.5" is no address. Write a number such as 63 or 0x3F.'],
    ['0,1\nX,1', 'line 2: "X" is no address. Write a number such as 63 or 0x3F.'],
    ['0,-1', 'line 1: "-1" is no byte. Write a number such as 63 or 0x3F.'],
    ['0,0x100', 'line 1: 0x100 does not fit into a byte, which goes from 0 to 255 (0xFF). Correct it.'],
    ['0,1\n0,2', 'line 2: address 0x00 is given twice: 01 by line 1, 02 by line 2. Remove one of the lines.'],
    ['4,1', 'line 1: address 0x04 is past the end of the memory; its 4 bytes reach to 0x03.'],
  ])('%j is refused', (text, sentence) => {
    expect(says(readCsvImage(text, { size: 4 })).slice(0, sentence.length)).toBe(sentence);
  });
});

describe('raw bytes', () => {
  const file = Uint8Array.from([1, 2, 3, 4]);
  test('begin where it is said, and fit where they just fit', () => {
    expect(bytesOf(readRawImage(file, { size: 4 }))).toEqual([1, 2, 3, 4]);
    expect(says(readRawImage(file, { size: 4 }))).toBe('read: ');
    expect(bytesOf(readRawImage(file, { size: 1, from: 3 }))).toEqual([4]);
    expect(bytesOf(readRawImage(new Uint8Array(0), { size: 2, fill: 7 }))).toEqual([7, 7]);
    expect(bytesOf(readRawImage(file, { size: 3, from: 2, fill: 9 }))).toEqual([3, 4, 9]);
  });
  test.each([
    [{ size: 1, from: 4 }, 'The file has 4 bytes and ends before byte 4, where this memory begins. Begin it earlier.'],
    [{ size: 3 }, 'The file has 4 bytes, and 3 fit into this memory. Choose a larger memory, or cut the file.'],
    [{ size: 2, from: 1 }, 'The file has 3 bytes from byte 1 on, and 2 fit into this memory. Choose a larger memory, or cut the file.'],
  ])('at %j are refused', (place, sentence) => {
    expect(says(readRawImage(file, place))).toBe(sentence);
  });
});

test('raw bytes that are written are a copy: what is done to them leaves the image as it is', () => {
  const kept = image(4, { 0: [1, 2, 3, 4] });
  const written = writeRawImage(kept);
  written[0] = 9;
  expect([...kept.bytes]).toEqual([1, 2, 3, 4]);
});

describe('where bytes of a file lie in a memory', () => {
  const csv = (rows: string, place: { size: number; from?: number; fill?: number }) => says(readCsvImage(rows, place));
  test('is told: what is missing, up to four gaps by name and the others by number', () => {
    expect(csv('0,1\n1,2', { size: 2 })).toBe('read: ');
    expect(csv('1,1', { size: 2 })).toBe('read: The file does not give 0x00: this byte stays FF.');
    expect(csv('0,1\n2,1\n4,1\n6,1', { size: 8, fill: 0 })).toBe(
      'read: The file does not give 0x01, 0x03, 0x05, 0x07: these 4 bytes stay 00.',
    );
    expect(csv('1,1\n3,1\n5,1\n7,1', { size: 10, fill: 0 })).toBe(
      'read: The file does not give 0x00, 0x02, 0x04, 0x06 and 1 more gaps: these 6 bytes stay 00.',
    );
  });
  test('is counted from where the memory begins in the file', () => {
    expect(bytesOf(readCsvImage('0x10,1\n0x11,2', { size: 2, from: 0x10 }))).toEqual([1, 2]);
    expect(csv('0x10,1', { size: 3, from: 0x10, fill: 0 })).toBe('read: The file does not give 0x11 to 0x12: these 2 bytes stay 00.');
    expect(csv('0x0F,1', { size: 2, from: 0x10 })).toBe(
      'line 1: address 0x0F is before 0x10, where this memory begins. Begin it at 0x0F or earlier.',
    );
    expect(csv('0x12,1', { size: 2, from: 0x10 })).toBe(
      'line 1: address 0x12 is past the end of the memory; its 2 bytes reach to 0x11. Choose a larger memory, or say at which address of the file it begins.',
    );
  });
});

describe('cells of a text from a spreadsheet', () => {
  const cells = (text: string) => {
    const read = readSeparated(text);
    return read.ok ? read.value.map((r) => [r.line, ...r.cells]) : read.failure.says;
  };
  test('stand between tabs before semicolons before commas, whichever the first line has most of', () => {
    expect(cells('a,b;c;d')).toEqual([[1, 'a,b', 'c', 'd']]);
    expect(cells('a,b;c')).toEqual([[1, 'a,b', 'c']]);
    expect(cells('a\tb,c')).toEqual([[1, 'a', 'b,c']]);
    expect(cells('a,b,c;d')).toEqual([[1, 'a', 'b', 'c;d']]);
    expect(cells('\n\na;b')).toEqual([[3, 'a', 'b']]);
    // what stands in quotation marks is no separator, and the first row may go on in the next line
    expect(cells('"a\nb";c;d\n1;2;3')).toEqual([
      [1, 'a\nb', 'c', 'd'],
      [3, '1', '2', '3'],
    ]);
    expect(cells('"a, b, and c";d')).toEqual([[1, 'a, b, and c', 'd']]);
  });
  test('are trimmed, keep what stands in quotation marks, and lines are counted through them', () => {
    expect(cells('  a , " b ""c"" " ,d')).toEqual([[1, 'a', 'b "c"', 'd']]);
    expect(cells('x,y\n"a\nb",c\nd,e')).toEqual([
      [1, 'x', 'y'],
      [2, 'a\nb', 'c'],
      [4, 'd', 'e'],
    ]);
    expect(cells('a"b,c')).toEqual([[1, 'a"b', 'c']]);
    expect(cells('a,"b,c')).toBe('line 1: a quotation mark is not closed. Put another one at the end of its cell.');
  });
  test('may end with any end of line, begin with a byte order mark, and have empty lines between', () => {
    expect(cells('\ufeffa,b\r\nc,d\re,f\n\n , \ng')).toEqual([
      [1, 'a', 'b'],
      [2, 'c', 'd'],
      [2, 'e', 'f'],
      [5, 'g'],
    ]);
    expect(cells('')).toEqual([]);
  });
  test('are written with quotation marks where they need them', () => {
    expect(['a', 'a,b', 'a"b', ' a', 'a ', 'a\nb', 'a;b'].map(csvCell)).toEqual(['a', '"a,b"', '"a""b"', '" a"', '"a "', '"a\nb"', 'a;b']);
  });
});

describe('a dump of traces', () => {
  const wire = (name: string, ...states: [number, '0' | '1' | 'x' | 'z'][]) => ({
    name,
    states: states.map(([time, state]) => ({ time, state })),
  });
  const dump = (from: number) =>
    writeVcd(
      [
        {
          name: 'U1',
          wires: [wire('/CE', [1e-6, '0'], [1.0005e-6, '1'], [1.0005e-6, '0']), wire('D0', [1e-6, 'x'], [2e-6, 'z'])],
          reals: [],
        },
        { name: '1 b', wires: [], reals: [{ name: 'A9', values: [{ time: 1e-6, value: 2.5 }] }] },
      ],
      from,
    );
  test('has its names, its first states at 0, and of several changes of one wire at one moment the last', () => {
    const written = dump(1e-6);
    if (!written.ok) throw new Error(written.failure.says);
    const text = lines(written.value);
    expect(text.filter((l) => l.startsWith('$scope') || l.startsWith('$var'))).toEqual([
      '$scope module U1 $end',
      '$var wire 1 ! CE_n $end',
      '$var wire 1 " D0 $end',
      '$scope module _1_b $end',
      '$var real 64 # A9_volts $end',
    ]);
    expect(text.filter((l) => l.startsWith('$upscope'))).toHaveLength(2);
    const body = text.slice(text.findIndex((l) => l.startsWith('$enddefinitions')) + 1).filter((l) => !l.startsWith('$'));
    expect(body).toEqual(['#0', '0!', 'x"', 'r2.5 #', '#500', '0!', '#1000000', 'z"']);
  });
  test('cannot begin after a change', () => {
    const late = dump(1.5e-6);
    expect(late.ok ? '' : late.failure.says).toBe('A change is 500000 ps before the beginning of the dump. Begin it earlier.');
  });
  test('gives every signal a code of its own, however many there are', () => {
    const many = writeVcd([{ name: 'U', wires: Array.from({ length: 8900 }, (_, i) => wire(`N${i}`)), reals: [] }], 0);
    if (!many.ok) throw new Error(many.failure.says);
    const codes = lines(many.value).flatMap((l) => /^\$var wire 1 (\S+) /.exec(l)?.[1] ?? []);
    expect(new Set(codes).size).toBe(8900);
    expect(codes.every((c) => /^[!-~]{1,2}$/.test(c))).toBe(true);
    expect([codes[93], codes[94], codes[95]]).toEqual(['~', '!!', '!"']);
  });
});
