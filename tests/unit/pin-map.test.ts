/** Images from a table and back, bit by bit: each cell of each memory by the definition, over maps that mix every kind of pin. */
import { describe, expect, test } from 'vitest';
import { addressOf, imagesOf, type PinMap, rowOf, tableOfImages } from '../../sim-core/logic/pin-map.ts';
import { type TruthTable, tableOfWords } from '../../sim-core/logic/truth-table.ts';
import { makeRandom } from '../../sim-core/units/random.ts';

const good = <T>(o: { ok: true; value: T } | { ok: false; failure: { says: string } }): T => {
  if (!o.ok) throw new Error(o.failure.says);
  return o.value;
};

const random = makeRandom(5);
const words = Uint16Array.from({ length: 8 }, () => Math.floor(random() * 1024));
const inputs = ['A', 'B', 'C'];
const outputs = Array.from({ length: 10 }, (_, i) => `F${i}`);
const table: TruthTable = good(tableOfWords(inputs, outputs, words));

/** Two memories of 32 bytes: inputs on scattered pins, one pin tied low, one high; outputs scattered over both, F3 on both. */
const map: PinMap = {
  chips: [
    { address: [2, 'low', 0, 'high', 1], data: [4, 'unused', 0, 7, 1, 'unused', 3, 2] },
    { address: ['high', 1, 2, 0, 'low'], data: ['unused', 9, 8, 3, 6, 5, 'unused', 'unused'] },
  ],
  activeLow: 0b1000010001,
  fill: 0x3c,
  elsewhere: 'fill',
};

/** By the definition: the level on each address pin in this row. */
const seenAt = (chip: PinMap['chips'][number], row: number): number =>
  chip.address.reduce<number>(
    (a, on, pin) => a + (on === 'high' || (typeof on === 'number' && Math.floor(row / 2 ** on) % 2 === 1) ? 2 ** pin : 0),
    0,
  );

describe('the images of a table', () => {
  const images = good(imagesOf(table, map));

  test('hold each output of each row at its own bit, inverted where 0 lights it, and the fill everywhere else', () => {
    for (const [i, chip] of map.chips.entries()) {
      const expected = new Uint8Array(32).fill(map.fill);
      for (const [row, word] of words.entries())
        for (const [bit, output] of chip.data.entries()) {
          if (output === 'unused') continue;
          const level = (Math.floor(word / 2 ** output) % 2) ^ (Math.floor(map.activeLow / 2 ** output) % 2);
          const at = seenAt(chip, row);
          expected[at] = level ? (expected[at] ?? 0) | (2 ** bit) : (expected[at] ?? 0) & (255 - 2 ** bit);
        }
      expect([...(images[i]?.bytes ?? [])]).toEqual([...expected]);
    }
  });

  test('say which bits the table gives', () => {
    const [first, second] = images;
    expect(first?.given[seenAt(map.chips[0]!, 5)]).toBe(0b11011101);
    expect(second?.given[seenAt(map.chips[1]!, 5)]).toBe(0b00111110);
    expect([...(first?.given ?? [])].filter((g) => g !== 0)).toHaveLength(8);
  });

  test('read back as the table that they came from', () => {
    expect([...good(tableOfImages(images, map, inputs, outputs)).values]).toEqual([...words]);
  });

  test('can be repeated over the addresses that a pin tied low keeps out of reach, and over no others', () => {
    const repeated = good(imagesOf(table, { ...map, elsewhere: 'repeat' }));
    const [first] = repeated;
    for (let address = 0; address < 32; address++) {
      const high = Math.floor(address / 8) % 2 === 1;
      const lowered = address & ~2;
      expect(first?.bytes[address]).toBe(high ? images[0]?.bytes[lowered] : map.fill);
    }
  });

  test('leave the fill in a bit that is free', () => {
    const free = good(imagesOf({ ...table, dontCare: Uint16Array.from(words, () => 1 << 4) }, map));
    for (const [row] of words.entries()) expect((free[0]?.bytes[seenAt(map.chips[0]!, row)] ?? 0) & 1).toBe(map.fill & 1);
    expect(free[0]?.given[seenAt(map.chips[0]!, 0)]).toBe(0b11011100);
  });
});

test('addresses and rows are each other’s inverse, and an address that a tied pin excludes has no row', () => {
  for (const chip of map.chips) {
    for (let row = 0; row < 8; row++) {
      expect(addressOf(chip, row)).toBe(seenAt(chip, row));
      expect(rowOf(chip, seenAt(chip, row))).toBe(row);
    }
    expect(Array.from({ length: 32 }, (_, a) => rowOf(chip, a)).filter((r) => r !== undefined)).toHaveLength(8);
  }
});

describe('a map that cannot carry the table', () => {
  const with0 = (over: Partial<PinMap['chips'][number]>): PinMap => ({ ...map, chips: [{ ...map.chips[0]!, ...over }, map.chips[1]!] });
  const refused = (m: PinMap) => {
    const answer = imagesOf(table, m);
    return answer.ok ? 'carried' : answer.failure.at;
  };
  test('is refused with the place: an input or an output that is nowhere, a column that does not exist', () => {
    expect(refused({ ...map, chips: [] })).toBe('memories');
    expect(refused(with0({ address: [2, 'low', 0, 'high', 'low'] }))).toBe('memory 1');
    expect(refused(with0({ address: [2, 3, 0, 'high', 1] }))).toBe('memory 1');
    expect(refused(with0({ address: [2, -1, 0, 'high', 1] }))).toBe('memory 1');
    expect(refused(with0({ data: [4, 10, 0, 7, 1, 'unused', 3, 2] }))).toBe('memory 1');
    expect(refused(with0({ data: [4, -1, 0, 7, 1, 'unused', 3, 2] }))).toBe('memory 1');
    expect(refused(with0({ data: ['unused', 'unused', 0, 7, 1, 'unused', 3, 2] }))).toBe('F4');
    // a memory that drives nothing needs no input
    expect(refused({ ...map, chips: [...map.chips, { address: ['low'], data: ['unused'] }] })).toBe('carried');
  });
  test('and so are images that are too small for it', () => {
    const [first, second] = good(imagesOf(table, map));
    const short = { bytes: second!.bytes.slice(0, 16), given: second!.given.slice(0, 16) };
    const answer = tableOfImages([first!, short], map, inputs, outputs);
    expect(answer).toMatchObject({ ok: false, failure: { at: 'memory 2', says: expect.stringContaining('16') } });
  });
});
