/** Two memory images compared: exchanged pins and inverted lines found again, single bits named, and whether the explanation is the only one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HEX_DIGITS } from '../../sim-core/logic/codes.ts';
import { compareImages } from '../../sim-core/logic/compare/compare.ts';
import { addressMap, complexity, type Disorder, seenThrough } from '../../sim-core/logic/compare/disorder.ts';
import { waysToRead } from '../../sim-core/logic/compare/permuted.ts';
import { type MemoryImage, wholeImage } from '../../sim-core/logic/memory-image.ts';
import { sayComparison, sayDisorders } from '../../sim-core/sentence/compared-images.ts';
import { hexByte } from '../../sim-core/units/hex.ts';

const said = (wanted: MemoryImage, seen: Uint8Array, dataPins = 8): string => {
  const made = compareImages(wanted, wholeImage(seen), dataPins);
  return made.ok ? sayComparison(made.value).join(' ') : made.failure.says;
};
/** Bytes without any likeness of pins. */
const RANDOM = Uint8Array.from(
  { length: 64 },
  (_, i) => ((Math.imul(i + 1, 0x9e3779b9) >>> 13) ^ (Math.imul(i + 77, 0x85ebca6b) >>> 21)) & 255,
);
/** What is seen of bytes. */
const through = (disorders: readonly Disorder[], bytes = RANDOM): Uint8Array => {
  const whole = { words: Uint16Array.from(bytes), care: new Uint16Array(bytes.length).fill(255) };
  return Uint8Array.from(seenThrough(disorders, whole).words);
};
const data = (...order: number[]): Disorder => ({ is: 'permuted', on: 'data', order });
const address = (...order: number[]): Disorder => ({ is: 'permuted', on: 'address', order });
const inverted = (on: 'address' | 'data', mask: number): Disorder => ({ is: 'inverted', on, mask });
const stuck = (on: 'address' | 'data', ...lines: (readonly [pin: number, level: 0 | 1])[]): Disorder => ({
  is: 'stuck',
  on,
  lines: lines.map(([pin, level]) => ({ pin, high: level === 1 })),
});

const shuffled = (n: number) =>
  fc.shuffledSubarray(
    Array.from({ length: n }, (_, i) => i),
    { minLength: n, maxLength: n },
  );
const anyExchange = (n: number, m: number): fc.Arbitrary<readonly Disorder[]> =>
  fc
    .tuple(fc.nat(2 ** n - 1), shuffled(n), fc.nat(2 ** m - 1), shuffled(m))
    .map(([a, pins, d, bits]) => [inverted('address', a), address(...pins), inverted('data', d), data(...bits)]);

describe('an exchange of pins', () => {
  test('of any kind is found, and what is found makes the image that was seen', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 7 }).chain((n) => fc.tuple(fc.uint8Array({ minLength: 2 ** n, maxLength: 2 ** n }), anyExchange(n, 8))),
        ([bytes, t]) => {
          const seen = through(t, bytes);
          const { ways, complete, count } = waysToRead(bytes, seen, { address: Math.log2(bytes.length), data: 8 });
          expect(complete || ways.length >= 64).toBe(true);
          expect(ways.length).toBeGreaterThan(0);
          expect(count).toBeGreaterThanOrEqual(ways.length);
          for (const way of ways) expect(Buffer.compare(through(way, bytes), seen)).toBe(0);
        },
      ),
      { numRuns: 200 },
    );
  });

  test('is counted as often as trying every one finds it, to three address and three data pins', () => {
    const orders = (n: number): number[][] =>
      n === 0 ? [[]] : orders(n - 1).flatMap((o) => Array.from({ length: n }, (_, k) => o.toSpliced(k, 0, n - 1)));
    fc.assert(
      fc.property(
        fc
          .integer({ min: 1, max: 3 })
          .chain((n) => fc.tuple(fc.array(fc.nat(7), { minLength: 2 ** n, maxLength: 2 ** n }), anyExchange(n, 3))),
        ([list, t]) => {
          const bytes = Uint8Array.from(list);
          const n = Math.log2(bytes.length);
          const seen = through(t, bytes);
          let count = 0;
          for (const pins of orders(n))
            for (let a = 0; a < 2 ** n; a++)
              for (const bits of orders(3))
                for (let d = 0; d < 8; d++)
                  if (
                    Buffer.compare(through([inverted('address', a), address(...pins), inverted('data', d), data(...bits)], bytes), seen) ===
                    0
                  )
                    count++;
          expect(waysToRead(bytes, seen, { address: n, data: 3 }).count).toBe(count);
        },
      ),
      { numRuns: 40 },
    );
  });

  test('that is none is not found', () => {
    const other = RANDOM.slice();
    other[5]! ^= 1;
    expect(waysToRead(RANDOM, other, { address: 6, data: 8 }).count).toBe(0);
  });

  // the figures of our notes on reading permuted tables, computed there by brute force
  test.each([
    ['hexadecimal digits', Uint8Array.from(HEX_DIGITS), 4, 7, 1],
    ['the sum of two numbers of two bits', Uint8Array.from({ length: 16 }, (_, r) => (r >> 2) + (r & 3)), 4, 3, 4],
    ['the parity of four bits', Uint8Array.from({ length: 16 }, (_, r) => (0x6996 >> r) & 1), 4, 1, 384],
  ] as const)('is unique or not: %s', (_, bytes, n, m, count) => {
    expect(waysToRead(bytes, bytes, { address: n, data: m }).count).toBe(count);
  });

  test('is found in 65 536 rows', () => {
    const bytes = Uint8Array.from({ length: 65_536 }, (_, i) => (Math.imul(i ^ (i >> 3), 2654435761) >>> 22) & 255);
    const t = [address(3, 0, 2, 1, 4, 5, 6, 7, 15, 9, 10, 11, 12, 13, 14, 8), data(7, 6, 5, 4, 3, 2, 1, 0)];
    const { ways, count } = waysToRead(bytes, through(t, bytes), { address: 16, data: 8 });
    expect(count).toBe(1);
    expect(ways[0]).toEqual(t);
  });
});

describe('the words', () => {
  const wanted = wholeImage(RANDOM);
  test.each([
    [[data(6, 5, 4, 3, 2, 1, 0, 7)], 'D0 to D6 reversed'],
    [[data(7, 6, 5, 4, 3, 2, 1, 0)], 'D0 to D7 reversed'],
    [[address(0, 1, 3, 2, 4, 5)], 'A2 and A3 swapped'],
    [[inverted('data', 0xff)], 'All bits inverted'],
    [[inverted('data', 0x24)], 'D2 and D5 inverted'],
    [[inverted('address', 4)], 'A2 inverted'],
    [[data(1, 2, 0, 3, 4, 5, 6, 7)], 'D0 on D1, D1 on D2, D2 on D0'],
    [[data(2, 3, 4, 5, 6, 0, 1, 7)], 'D0 to D6 rotated up by 2 pins'],
    [[address(1, 0, 2, 3, 4, 5), inverted('data', 0xff)], 'A0 and A1 swapped, and all bits inverted'],
  ] as const)('%o', (change, words) => {
    expect(said(wanted, through(change))).toMatch(
      new RegExp(`^${words}: that explains all \\d+ of 64 rows that differ\\. Nothing else explains them\\.$`),
    );
  });

  test.each([
    [[{ is: 'shorted', on: 'data', pins: [2, 3], as: 'and' }], 'D2 and D3 shorted, low wins'],
    [[{ is: 'shorted', on: 'address', pins: [1, 4], as: 'or' }], 'A1 and A4 shorted, high wins'],
    [[{ is: 'shifted', on: 'address', by: 1 }], 'Every byte one row too high'],
    [[{ is: 'shifted', on: 'address', by: -13 }], 'Every byte 13 rows too low'],
    [[{ is: 'half', on: 'address', pin: 5, high: true, word: 255 }], 'Every byte FF where A5 is high'],
    [
      [
        { is: 'shifted', on: 'address', by: 5 },
        { is: 'permuted', on: 'data', order: [1, 0, 2, 3, 4, 5, 6, 7] },
      ],
      'Every byte 5 rows too high, and D0 and D1 swapped',
    ],
  ] as const)('say %o', (change, words) => {
    expect(said(wanted, through(change))).toMatch(new RegExp(`^${words}: that explains all \\d+ of 64 rows that differ\\.$`));
  });

  test.each([
    [stuck('data', [0, 0]), 'D0 always 0'],
    [stuck('data', [7, 1]), 'D7 always 1'],
    [stuck('address', [3, 0]), 'A3 as if always low'],
    [stuck('address', [2, 1], [5, 1]), 'A2 and A5 as if always high'],
  ] as const)('name lines that never change: %o', (line, words) => {
    const seen = through([line]);
    expect(said(wanted, seen)).toMatch(
      new RegExp(`^${words}: that explains all \\d+ of 64 rows that differ\\. Check for a wire or a pin with no contact\\.$`),
    );
    // one byte more is wrong, at two addresses where an address pin makes no difference
    const twins = line.is === 'stuck' && line.on === 'address' ? line.lines.reduce((m, l) => m | (1 << l.pin), 0) : 0;
    for (const x of new Set([20, 20 ^ twins])) seen[x]! ^= 0x08;
    expect(said(wanted, seen)).toMatch(new RegExp(`^${words}: that explains the \\d+ of 64 rows that differ, except `));
  });

  test('name two lines that never change, one on each side', () => {
    expect(said(wanted, through([stuck('address', [1, 0]), stuck('data', [4, 1])]))).toMatch(
      /^A1 as if always low, and D4 always 1: that explains all/,
    );
  });

  test('do not choose between a line that is stuck and one that is inverted where the table has but one level there', () => {
    const even = RANDOM.map((b) => b | 1);
    expect(
      said(
        wholeImage(even),
        even.map((b) => b ^ 1),
      ),
    ).toBe('Several explanations fit the 64 of 64 rows that differ: D0 inverted; or D0 always 0.');
    expect(said(wanted, through([inverted('data', 1)]))).toMatch(/^D0 inverted: /);
  });

  test('name single bits', () => {
    const seen = RANDOM.slice();
    seen[2]! ^= 8;
    seen[9]! ^= 0x81;
    const [two, nine] = [2, 9].map((at) => `${hexByte(seen[at]!)}, should be ${hexByte(RANDOM[at]!)}`);
    expect(said(wanted, seen)).toBe(`2 of 64 rows differ. Row 2: ${two} (D3); row 9: ${nine} (D0 and D7).`);
    expect(said(wanted, RANDOM)).toBe('Both images are the same in all 64 rows, don’t-care bits aside.');
  });

  test('name an exchange and the bits it leaves over', () => {
    const seen = through([data(6, 5, 4, 3, 2, 1, 0, 7)]);
    const should = hexByte(seen[2]!);
    seen[2]! ^= 8;
    expect(said(wanted, seen)).toMatch(/^D0 to D6 reversed: that explains the \d+ of 64 rows that differ, except one\. /);
    expect(said(wanted, seen)).toContain(`Row 2: ${hexByte(seen[2]!)}, should be ${should} (D3).`);
  });

  test('make no story of a memory that holds something else', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 64, maxLength: 64 }), (other) => {
        const words = said(wanted, other);
        expect(words).toMatch(/^\d+ of 64 rows differ\. Row \d+: [0-9A-F]{2}, should be /);
      }),
      { numRuns: 30 },
    );
    expect(said(wanted, new Uint8Array(64).fill(0xff))).toMatch(/^Every byte is FF, as in an erased memory\. \d+ of 64 rows differ\.$/);
  });

  test('tell rows that a file does not give from rows that differ', () => {
    const part = { bytes: RANDOM.slice(), given: new Uint8Array(64).fill(0xff, 0, 10) };
    part.bytes.fill(0xff, 10);
    const words = () => {
      const made = compareImages(wanted, part);
      return made.ok ? sayComparison(made.value).join(' ') : made.failure.says;
    };
    expect(words()).toBe('54 rows that are wanted are not in the file; the others are as wanted.');
    part.bytes[3]! ^= 4;
    expect(words()).toBe(
      `54 rows that are wanted are not in the file. Of the others one differs. Row 3: ${hexByte(part.bytes[3]!)}, should be ${hexByte(RANDOM[3]!)} (D2).`,
    );
  });

  test('name what cannot be distinguished', () => {
    const sum = Uint8Array.from({ length: 16 }, (_, r) => (r >> 2) + (r & 3));
    expect(said(wholeImage(sum), through([data(1, 0, 2, 3, 4, 5, 6, 7)], sum))).toMatch(
      /^D0 and D1 swapped: .* A0 and A2 can be swapped without any effect\. A1 and A3 can/,
    );
    const counting = Uint8Array.from({ length: 8 }, (_, r) => r);
    expect(said(wholeImage(counting), through([data(2, 1, 0, 3, 4, 5, 6, 7)], counting), 3)).toBe(
      'Several explanations fit the 4 of 8 rows that differ: A0 to A2 reversed; or D0 to D2 reversed.',
    );
  });

  test('count only what was given', () => {
    const loose = { bytes: RANDOM, given: new Uint8Array(64).fill(0xff, 0, 10) };
    const seen = RANDOM.slice();
    seen[40] = 0;
    expect(said(loose, seen)).toBe('Both images are the same in all 10 rows, don’t-care bits aside.');
    expect(said(loose, new Uint8Array(32))).toMatch(/^One image has 64 bytes and the other 32;/);
  });
});

test('saying less is simpler, and nothing is simplest', () => {
  const pins = { address: 4, data: 8 };
  const cost = (d: Disorder) => complexity(d, pins);
  expect(sayDisorders([], pins)).toBe('');
  expect(cost(data(0, 1, 2, 3, 4, 5, 6, 7))).toBe(0);
  expect(cost(data(7, 6, 5, 4, 3, 2, 1, 0))).toBeLessThan(cost(data(1, 2, 3, 0, 4, 7, 5, 6)));
  expect([...addressMap({ is: 'permuted', on: 'address', order: [1, 0] }, 4)]).toEqual([0, 2, 1, 3]);
});
