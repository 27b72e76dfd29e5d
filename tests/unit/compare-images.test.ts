/** Two memory images compared: exchanged pins and inverted lines found again, single bits named, and whether the explanation is the only one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HEX_DIGITS } from '../../sim-core/logic/codes.ts';
import { compareImages } from '../../sim-core/logic/compare/compare.ts';
import { waysToRead } from '../../sim-core/logic/compare/permuted.ts';
import { seenStuck } from '../../sim-core/logic/compare/stuck-at.ts';
import { complexity, nothingChanged, seenThrough, type Transform, wantedAddresses } from '../../sim-core/logic/compare/transform.ts';
import { type MemoryImage, wholeImage } from '../../sim-core/logic/memory-image.ts';
import { sayComparison, sayTransform } from '../../sim-core/text/images.ts';

const said = (wanted: MemoryImage, seen: Uint8Array, dataPins = 8): string => {
  const made = compareImages(wanted, wholeImage(seen), dataPins);
  return made.ok ? sayComparison(made.value).join(' ') : made.failure.says;
};
/** Bytes without any likeness of pins. */
const RANDOM = Uint8Array.from(
  { length: 64 },
  (_, i) => ((Math.imul(i + 1, 0x9e3779b9) >>> 13) ^ (Math.imul(i + 77, 0x85ebca6b) >>> 21)) & 255,
);
const through = (change: Partial<Transform>, bytes = RANDOM) =>
  seenThrough({ ...nothingChanged(Math.log2(bytes.length), 8), ...change }, bytes);

const shuffled = (n: number) =>
  fc.shuffledSubarray(
    Array.from({ length: n }, (_, i) => i),
    { minLength: n, maxLength: n },
  );
const anyTransform = (n: number, m: number): fc.Arbitrary<Transform> =>
  fc.record({
    address: shuffled(n),
    addressInverted: fc.nat(2 ** n - 1),
    data: shuffled(m),
    dataInverted: fc.nat(2 ** m - 1),
    shift: fc.constant(0),
  });

describe('an exchange of pins', () => {
  test('of any kind is found, and what is found makes the image that was seen', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 7 }).chain((n) => fc.tuple(fc.uint8Array({ minLength: 2 ** n, maxLength: 2 ** n }), anyTransform(n, 8))),
        ([bytes, t]) => {
          const seen = seenThrough(t, bytes);
          const { ways, complete, count } = waysToRead(bytes, seen, t.address.length);
          expect(complete || ways.length >= 64).toBe(true);
          expect(ways.length).toBeGreaterThan(0);
          expect(count).toBeGreaterThanOrEqual(ways.length);
          for (const way of ways) expect(Buffer.compare(seenThrough(way, bytes), seen)).toBe(0);
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
          .chain((n) => fc.tuple(fc.array(fc.nat(7), { minLength: 2 ** n, maxLength: 2 ** n }), anyTransform(n, 3))),
        ([list, t]) => {
          const n = t.address.length;
          const bytes = Uint8Array.from(list);
          const seen = seenThrough(t, bytes);
          let count = 0;
          for (const address of orders(n))
            for (let addressInverted = 0; addressInverted < 2 ** n; addressInverted++)
              for (const data of orders(3))
                for (let dataInverted = 0; dataInverted < 8; dataInverted++)
                  if (Buffer.compare(seenThrough({ address, addressInverted, data, dataInverted, shift: 0 }, bytes), seen) === 0) count++;
          expect(waysToRead(bytes, seen, n, 3).count).toBe(count);
        },
      ),
      { numRuns: 40 },
    );
  });

  test('that is none is not found', () => {
    const other = RANDOM.slice();
    other[5]! ^= 1;
    expect(waysToRead(RANDOM, other, 6).count).toBe(0);
  });

  // the figures of our notes on reading permuted tables, computed there by brute force
  test.each([
    ['hexadecimal digits', Uint8Array.from(HEX_DIGITS), 4, 7, 1],
    ['the sum of two numbers of two bits', Uint8Array.from({ length: 16 }, (_, r) => (r >> 2) + (r & 3)), 4, 3, 4],
    ['the parity of four bits', Uint8Array.from({ length: 16 }, (_, r) => (0x6996 >> r) & 1), 4, 1, 384],
  ] as const)('is unique or not: %s', (_, bytes, n, m, count) => {
    expect(waysToRead(bytes, bytes, n, m).count).toBe(count);
  });

  test('is found in 65 536 rows', () => {
    const bytes = Uint8Array.from({ length: 65_536 }, (_, i) => (Math.imul(i ^ (i >> 3), 2654435761) >>> 22) & 255);
    const t: Transform = {
      ...nothingChanged(16, 8),
      address: [3, 0, 2, 1, 4, 5, 6, 7, 15, 9, 10, 11, 12, 13, 14, 8],
      data: [7, 6, 5, 4, 3, 2, 1, 0],
    };
    const { ways, count } = waysToRead(bytes, seenThrough(t, bytes), 16);
    expect(count).toBe(1);
    expect(ways[0]).toEqual(t);
  });
});

describe('the words', () => {
  const wanted = wholeImage(RANDOM);
  test.each([
    [{ data: [6, 5, 4, 3, 2, 1, 0, 7] }, 'D0 to D6 reversed'],
    [{ data: [7, 6, 5, 4, 3, 2, 1, 0] }, 'D0 to D7 reversed'],
    [{ address: [0, 1, 3, 2, 4, 5] }, 'A2 and A3 swapped'],
    [{ dataInverted: 0xff }, 'All bits inverted'],
    [{ dataInverted: 0x24 }, 'D2 and D5 inverted'],
    [{ addressInverted: 4 }, 'A2 inverted'],
    [{ data: [1, 2, 0, 3, 4, 5, 6, 7] }, 'D0 on D1, D1 on D2, D2 on D0'],
    [{ address: [1, 0, 2, 3, 4, 5], dataInverted: 0xff }, 'A0 and A1 swapped, and all bits inverted'],
  ] as const)('%o', (change, words) => {
    expect(said(wanted, through(change))).toMatch(
      new RegExp(`^${words}: that explains all \\d+ rows that differ\\. Nothing else explains them\\.$`),
    );
  });

  test.each([
    [{ data: [{ pin: 0, high: false }], address: [] }, 'D0 always 0'],
    [{ data: [{ pin: 7, high: true }], address: [] }, 'D7 always 1'],
    [{ data: [], address: [{ pin: 3, high: false }] }, 'A3 as if always low'],
    [
      {
        data: [],
        address: [
          { pin: 2, high: true },
          { pin: 5, high: true },
        ],
      },
      'A2 and A5 as if always high',
    ],
    [{ data: [{ pin: 4, high: true }], address: [{ pin: 1, high: false }] }, 'D4 always 1, and A1 as if always low'],
  ] as const)('name lines that never change: %o', (stuck, words) => {
    expect(said(wanted, seenStuck(stuck, RANDOM))).toMatch(
      new RegExp(`^${words}: that explains all \\d+ rows that differ\\. Check for a wire or a pin with no contact\\.$`),
    );
    const seen = seenStuck(stuck, RANDOM);
    // one byte more is wrong, at two addresses where an address pin makes no difference
    for (const x of stuck.address.length > 0 ? [20, 20 ^ stuck.address.reduce((m, l) => m | (1 << l.pin), 0)] : [20]) seen[x]! ^= 0x08;
    if (stuck.address.length < 2)
      expect(said(wanted, seen)).toMatch(new RegExp(`^${words}: that explains the \\d+ rows that differ, except `));
  });

  test('call no line stuck that need not change, or that is only inverted', () => {
    const even = RANDOM.map((b) => b | 1);
    expect(
      said(
        wholeImage(even),
        even.map((b) => b ^ 1),
      ),
    ).toMatch(/^D0 inverted: /);
    expect(said(wanted, through({ dataInverted: 1 }))).toMatch(/^D0 inverted: /);
  });

  test('name single bits', () => {
    const seen = RANDOM.slice();
    seen[2]! ^= 8;
    seen[9]! ^= 0x81;
    expect(said(wanted, seen)).toBe('2 of 64 rows differ. Row 2: bit 3; row 9: bits 0 and 7.');
    expect(said(wanted, RANDOM)).toBe('Both images are the same in all 64 rows, don’t-care bits aside.');
  });

  test('name an exchange and the bits it leaves over', () => {
    const seen = through({ data: [6, 5, 4, 3, 2, 1, 0, 7] });
    seen[2]! ^= 8;
    expect(said(wanted, seen)).toMatch(/^D0 to D6 reversed: that explains the \d+ rows that differ, except one\. Row 2: bit 3\.$/);
    expect(said(wanted, through({ shift: 1 }))).toMatch(/^Every byte one row too high: /);
  });

  test('make no story of a memory that holds something else: fewer than half of its rows would fit it', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 64, maxLength: 64 }), (other) => {
        const words = said(wanted, other);
        const claimed = /explains (\d+) rows that differ(?:, but for (\d+|one))?/.exec(words);
        if (claimed) expect(Number(claimed[2] === 'one' ? 1 : (claimed[2] ?? 0))).toBeLessThanOrEqual(Number(claimed[1]) / 2);
        else expect(words).toMatch(/^\d+ of 64 rows differ\. Row \d+: bits? /);
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
    expect(words()).toBe('54 rows that are wanted are not in the file. Of the others one differs. Row 3: bit 2.');
  });

  test('name what cannot be distinguished', () => {
    const sum = Uint8Array.from({ length: 16 }, (_, r) => (r >> 2) + (r & 3));
    expect(said(wholeImage(sum), through({ data: [1, 0, 2, 3, 4, 5, 6, 7] }, sum))).toMatch(
      /^D0 and D1 swapped: .* A0 and A2 can be swapped without any effect\. A1 and A3 can/,
    );
    const counting = Uint8Array.from({ length: 8 }, (_, r) => r);
    expect(said(wholeImage(counting), through({ data: [2, 1, 0, 3, 4, 5, 6, 7] }, counting), 3)).toBe(
      'D0 to D2 reversed: that explains all 4 rows that differ. The table cannot distinguish it from: A0 to A2 reversed.',
    );
  });

  test('count only what was given', () => {
    const loose = { bytes: RANDOM, given: new Uint8Array(64).fill(0xff, 0, 10) };
    const seen = RANDOM.slice();
    seen[40] = 0;
    expect(said(loose, seen)).toBe('Both images are the same in all 64 rows, don’t-care bits aside.');
    expect(said(loose, new Uint8Array(32))).toMatch(/^One image has 64 bytes and the other 32;/);
  });
});

test('saying less is simpler, and nothing is simplest', () => {
  const none = nothingChanged(4, 8);
  expect(complexity(none)).toBe(0);
  expect(sayTransform(none)).toBe('');
  expect(complexity({ ...none, data: none.data.toReversed() })).toBeLessThan(complexity({ ...none, data: [1, 2, 3, 0, 4, 5, 6, 7] }));
  expect([...wantedAddresses({ ...nothingChanged(2, 1), address: [1, 0], addressInverted: 1 })]).toEqual([1, 3, 0, 2]);
});
