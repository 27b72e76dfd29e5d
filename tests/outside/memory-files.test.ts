/** Intel HEX and S-record against worked examples in print and against GNU binutils' objcopy. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { readIntelHex, writeIntelHex } from '../../sim-core/formats/intel-hex.ts';
import { readSRecord, writeSRecord } from '../../sim-core/formats/s-record.ts';
import { wholeImage } from '../../sim-core/logic/memory-image.ts';
import fixtures from './objcopy-fixtures.json' with { type: 'json' };

/** The lines carry their own sums: an example is understood if it is read, and its bytes are where its text says. */
describe('worked examples', () => {
  const END = '\n:00000001FF';
  test.each([
    // a listing in The C Users Journal, "V7N4028A", which explains both formats on the same four bytes
    [`:04FEDC00210080CFB2${END}`, 0xfedc, [0x21, 0x00, 0x80, 0xcf]],
    // lecture notes of National Cheng Kung University, "Explaining Intel HEX file", example 8-4
    [`:07002000DBFEDCFADDF62235${END}`, 0x20, [0xdb, 0xfe, 0xdc, 0xfa, 0xdd, 0xf6, 0x22]],
    // a compiler maker's manual of its HEX converter, "Data Record"
    [`:10246200464C5549442050524F46494C4500464C33${END}`, 0x2462, [...'FLUID PROFILE\0FL'].map((c) => c.charCodeAt(0))],
  ])('Intel HEX %s', (text, from, bytes) => {
    const read = readIntelHex(text, { size: 65_536 });
    expect(read.ok && [...read.value.image.bytes.slice(from, from + bytes.length)]).toEqual(bytes);
    expect(read.ok && read.value.image.given.reduce((n, g) => n + (g ? 1 : 0), 0)).toBe(bytes.length);
  });

  test('S-record S107FEDC210080CFAE', () => {
    // the same listing; S9030000FC: a maker's manual of a monitor program, "S9 S-record type S9, indicating a termination record"
    const read = readSRecord('S107FEDC210080CFAE\nS9030000FC', { size: 65_536 });
    expect(read.ok && [...read.value.image.bytes.slice(0xfedc, 0xfee0)]).toEqual([0x21, 0x00, 0x80, 0xcf]);
  });

  test('segments count times 16 and run round at 64 K', () => {
    // :020000021200EA from the Revision A text of 1988; that addresses run round is from memory
    const read = readIntelHex(':020000021200EA\n:02FFFF00AABB9B\n:00000001FF', { size: 0x30_000 });
    expect(read.ok && [read.value.image.bytes[0x12000 + 0xffff], read.value.image.bytes[0x12000]]).toEqual([0xaa, 0xbb]);
  });
});

/** made once by objcopy, see `made` in the file; so that a machine without binutils checks something too */
describe(`fixtures made by ${fixtures.made}`, () => {
  test.each(fixtures.images)('$name', ({ size, from, bytes, hex, srec }) => {
    const whole = Buffer.from(bytes, 'base64');
    for (const read of [readIntelHex(hex.join('\n'), { size, from }), readSRecord(srec.join('\n'), { size, from })]) {
      if (!read.ok) throw new Error(read.failure.says);
      expect(Buffer.from(read.value.image.bytes.slice(0, whole.length)).equals(whole)).toBe(true);
      expect(read.value.image.given.reduce((n, g) => n + (g ? 1 : 0), 0)).toBe(whole.length);
    }
    if (from === 0) {
      // objcopy gives a heading of its own and no count of lines; data lines are the same to the sign
      const data = (text: string) => text.split('\n').filter((l) => /^:..(....)00|^S[123]/.test(l));
      expect(data(writeIntelHex(wholeImage(whole)))).toEqual(data(hex.join('\n')));
      expect(data(writeSRecord(wholeImage(whole)))).toEqual(data(srec.join('\n')));
    }
  });

  test('there are some', () => expect(fixtures.images.length).toBeGreaterThan(2));
});

const present = spawnSync('objcopy', ['--version']).status === 0;
describe.runIf(present)('objcopy of this machine', () => {
  const folder = mkdtempSync(join(tmpdir(), 'memory-files-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  const through = (content: string | Uint8Array, from: string, to: string): Buffer => {
    writeFileSync(join(folder, 'in'), content);
    execFileSync('objcopy', ['-I', from, '-O', to, join(folder, 'in'), join(folder, 'out')]);
    return readFileSync(join(folder, 'out'));
  };
  const bytes = fc.oneof(
    fc.uint8Array({ minLength: 1, maxLength: 3000 }),
    fc.uint8Array({ minLength: 66_000, maxLength: 66_050, size: 'max' }),
  );

  test('reads what we write, and we read what it writes', () => {
    fc.assert(
      fc.property(bytes, fc.integer({ min: 1, max: 64 }), (content, perLine) => {
        const image = wholeImage(content);
        const size = content.length;
        expect(through(writeIntelHex(image, perLine), 'ihex', 'binary').equals(content)).toBe(true);
        expect(through(writeSRecord(image, 'heading', perLine), 'srec', 'binary').equals(content)).toBe(true);
        for (const read of [
          readIntelHex(through(content, 'binary', 'ihex').toString('latin1'), { size }),
          readSRecord(through(content, 'binary', 'srec').toString('latin1'), { size }),
        ]) {
          if (!read.ok) throw new Error(read.failure.says);
          expect(Buffer.from(read.value.image.bytes).equals(content)).toBe(true);
        }
      }),
      { numRuns: 12 },
    );
  });
});
