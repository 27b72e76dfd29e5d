/** The order of writing by hand: exact where it says so, bounded where it is not, and only what must change. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HEX_DIGITS } from '../../sim-core/logic/codes.ts';
import { wholeImage } from '../../sim-core/logic/memory-image.ts';
import { HAND_SPEED, programmingOrder } from '../../sim-core/logic/programming-order.ts';
import { anyOrder, exactOrder, flipsBetween, lowerBound, type Stop } from '../../sim-core/logic/shortest-path.ts';

const length = (start: Stop, order: readonly Stop[]) => order.reduce((sum, s, i) => sum + flipsBetween(order[i - 1] ?? start, s), 0);
const stop = fc.record({ address: fc.nat(2047), data: fc.nat(255) });
const stops = (least: number, most: number) => fc.uniqueArray(stop, { minLength: least, maxLength: most, selector: (s) => s.address });
const orders = (list: readonly Stop[]): Stop[][] =>
  list.length === 0 ? [[]] : list.flatMap((s, i) => orders(list.toSpliced(i, 1)).map((o) => [s, ...o]));

test('the exact order is as short as the shortest of all orders, to six bytes', () => {
  fc.assert(
    fc.property(stop, stops(1, 6), (start, list) => {
      const order = exactOrder(start, list);
      expect([...order].sort((a, b) => a.address - b.address)).toEqual([...list].sort((a, b) => a.address - b.address));
      expect(length(start, order)).toBe(Math.min(...orders(list).map((o) => length(start, o))));
    }),
    { numRuns: 60 },
  );
});

test('any other order visits every byte once, is no shorter than the bound, and at ten bytes within a fifth of the shortest on average', () => {
  let [found, least] = [0, 0];
  fc.assert(
    fc.property(stop, stops(2, 10), (start, list) => {
      const order = anyOrder(start, list, true);
      expect(new Set(order).size).toBe(list.length);
      expect(lowerBound(start, list)).toBeLessThanOrEqual(length(start, exactOrder(start, list)));
      expect(length(start, order)).toBeGreaterThanOrEqual(length(start, exactOrder(start, list)));
      expect(length(start, order)).toBeLessThanOrEqual(length(start, anyOrder(start, list, false)));
      found += length(start, order);
      least += length(start, exactOrder(start, list));
    }),
    { numRuns: 100 },
  );
  expect(found / least).toBeLessThan(1.2);
});

describe('hexadecimal digits by hand', () => {
  const wanted = wholeImage(Uint8Array.from(HEX_DIGITS));
  // figures of our notes on programming by hand, computed there, all switches standing at 0
  const model = { address: 0, data: 0 };
  const blank = new Uint8Array(16).fill(0xff);

  test('take 51 flips instead of 78', () => {
    const order = programmingOrder(wanted, blank, model);
    expect(order).toMatchObject({ flips: 51, flipsAscending: 78, atLeast: 51, exact: true });
    expect(order.seconds).toBe(51 * HAND_SPEED.flip + 16 * (HAND_SPEED.press + HAND_SPEED.look));
    const gray = Array.from({ length: 16 }, (_, i) => i ^ (i >> 1)).map((address) => ({ address, data: HEX_DIGITS[address]! }));
    expect(length(model, gray)).toBe(72);
  });

  test('each step flips from the one before to its own byte', () => {
    const { steps } = programmingOrder(wanted, blank, { address: 5, data: 0xaa });
    let at = { address: 5, data: 0xaa };
    for (const s of steps) {
      at = { address: at.address ^ s.addressFlips, data: at.data ^ s.dataFlips };
      expect(at).toEqual({ address: s.address, data: HEX_DIGITS[s.address] });
    }
    expect(steps.length).toBe(16);
  });
});

test('only bytes with a bit that matters and is wrong are written', () => {
  const wanted = { bytes: Uint8Array.from([1, 2, 3, 4]), given: Uint8Array.from([0xff, 0x0f, 0, 0xff]) };
  const order = programmingOrder(wanted, Uint8Array.from([1, 0xf2, 0, 0]), { address: 0, data: 0 });
  expect(order.steps).toEqual([{ address: 3, data: 4, addressFlips: 3, dataFlips: 4 }]);
  expect(programmingOrder(wanted, wanted.bytes, { address: 0, data: 0 })).toMatchObject({ steps: [], flips: 0, atLeast: 0, seconds: 0 });
});

test('bits that matter in some bytes only stay as they stand, and nothing is called fewest that is not', () => {
  const byte = fc.record({ data: fc.nat(7), given: fc.integer({ min: 1, max: 7 }) });
  fc.assert(
    fc.property(
      fc.uniqueArray(fc.nat(7), { minLength: 1, maxLength: 3 }),
      fc.array(byte, { minLength: 8, maxLength: 8 }),
      fc.nat(7),
      (at, all, data) => {
        const wanted = {
          bytes: Uint8Array.from(all, (b) => b.data),
          given: Uint8Array.from(all, (b, a) => (at.includes(a) ? b.given : 0)),
        };
        const stored = wanted.bytes.map((b) => ~b);
        const order = programmingOrder(wanted, stored, { address: 0, data });
        for (const s of order.steps) expect((s.data ^ (wanted.bytes[s.address] ?? 0)) & (wanted.given[s.address] ?? 0)).toBe(0);
        // every order, with every byte that the free bits allow
        const list = at.map((address) => ({ address, data: wanted.bytes[address]!, given: wanted.given[address]! }));
        const least = (from: Stop, left: typeof list): number =>
          left.length === 0
            ? 0
            : Math.min(
                ...left.flatMap((s, i) =>
                  Array.from({ length: 8 }, (_, any) => ({ address: s.address, data: (s.data & s.given) | (any & ~s.given) })).map(
                    (next) => flipsBetween(from, next) + least(next, left.toSpliced(i, 1)),
                  ),
                ),
              );
        const fewest = least({ address: 0, data }, list);
        expect(order.flips).toBeGreaterThanOrEqual(fewest);
        expect(order.atLeast).toBeLessThanOrEqual(fewest);
        if (order.exact) expect(order.flips).toBe(fewest);
      },
    ),
    { numRuns: 40 },
  );
});

test('two thousand bytes get an order and a bound', () => {
  const bytes = Uint8Array.from({ length: 2048 }, (_, i) => (i * 37 + (i >> 3)) & 255);
  const order = programmingOrder(wholeImage(bytes), new Uint8Array(2048).fill(0xff), { address: 0, data: 0 });
  expect(order.exact).toBe(false);
  expect(order.atLeast).toBeLessThanOrEqual(order.flips);
  expect(order.flips).toBeLessThan(order.flipsAscending);
  expect(order.steps.length).toBe(bytes.filter((b) => b !== 255).length);
});
