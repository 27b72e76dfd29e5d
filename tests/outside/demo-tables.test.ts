/** The demonstration tables against sources that are not ours, and their promises in every row. */
import { describe, expect, test } from 'vitest';
import { DEMO_TABLES } from '../../sim-core/demos/tables/catalogue.ts';
import { gray, HEX_DIGITS } from '../../sim-core/logic/codes.ts';
import { imagesOf, tableOfImages } from '../../sim-core/logic/pin-map.ts';
import { tableOfRules } from '../../sim-core/logic/rules-table.ts';
import { rowsOf, type TruthTable, wrongBits } from '../../sim-core/logic/truth-table.ts';
import { straightPins } from '../support/straight-pins.ts';

const tableOf = (id: string): TruthTable => {
  const demo = DEMO_TABLES.find((d) => d.id === id);
  const made = tableOfRules(demo?.inputs ?? [], demo?.outputs ?? [], demo?.rules ?? '');
  if (!made.ok) throw new Error(`${id}: ${made.failure.says}`);
  return made.value;
};
/** Values of named outputs in a row whose named inputs are 1. */
const row = (table: TruthTable, r: number): Readonly<Record<string, number>> => ({
  ...Object.fromEntries(table.inputs.map((name, i) => [name, (r >> i) & 1])),
  ...Object.fromEntries(table.outputs.map((name, o) => [name, (table.values[r]! >> o) & 1])),
});
const allRows = (table: TruthTable) => Array.from({ length: rowsOf(table) }, (_, r) => row(table, r));

describe.each(DEMO_TABLES.map((d) => [d.title, d] as const))('%s', (_, demo) => {
  test('is a table that goes into memories and comes out again, low drivers and all', () => {
    const table = tableOf(demo.id);
    const activeLow = (demo.activeLow ?? []).reduce((mask, name) => mask | (1 << table.outputs.indexOf(name)), 0);
    expect(demo.activeLow?.every((name) => table.outputs.includes(name)) ?? true).toBe(true);
    const pins = { ...straightPins(table, 11), activeLow };
    expect(pins.chips.length).toBe(table.outputs.length > 8 ? 2 : 1);
    const images = imagesOf(table, pins);
    const back = images.ok ? tableOfImages(images.value, pins, table.inputs, table.outputs) : images;
    if (!back.ok) throw new Error(back.failure.says);
    for (let r = 0; r < rowsOf(table); r++) expect(wrongBits(table, r, back.value.values[r]!)).toBe(0);
  });
});

test('Braille cells carry the dots that Unicode names for their characters', () => {
  // characters and dots: names in the Unicode character database, version 14.0, read with another language's library ("BRAILLE PATTERN DOTS-2456");
  // which character is which letter: a public repository's list of ASCII Braille, R to Z read, A to Q from memory
  const CELLS = '⠁⠃⠉⠙⠑⠋⠛⠓⠊⠚⠅⠇⠍⠝⠕⠏⠟⠗⠎⠞⠥⠧⠺⠭⠽⠵';
  const DOTS = '1 12 14 145 15 124 1245 125 24 245 13 123 134 1345 135 1234 12345 1235 234 2345 136 1236 2456 1346 13456 1356'.split(' ');
  const table = tableOf('braille-tutor');
  expect(table.values[0]).toBe(0);
  for (const [i, cell] of [...CELLS].entries()) {
    expect(0x2800 + table.values[i + 1]!, `letter ${i + 1}`).toBe(cell.codePointAt(0));
    expect([1, 2, 3, 4, 5, 6].filter((d) => (table.values[i + 1]! >> (d - 1)) & 1).join('')).toBe(DOTS[i]);
  }
});

test('Gray codes of the first sixteen numbers', () => {
  // a table printed in most textbooks, from memory
  const CODES = '0000 0001 0011 0010 0110 0111 0101 0100 1100 1101 1111 1110 1010 1011 1001 1000'.split(' ');
  expect(CODES.map((c) => Number.parseInt(c, 2))).toEqual(Array.from({ length: 16 }, (_, n) => gray(n)));
});

test('the wind vane lights one LED or two neighbours, and one LED at most changes from sector to sector', () => {
  const table = tableOf('wind-vane');
  const ones = (v: number) => [0, 1, 2, 3, 4, 5, 6, 7].filter((b) => (v >> b) & 1);
  for (let s = 0; s < 16; s++) {
    const [now, next] = [table.values[gray(s)]!, table.values[gray((s + 1) % 16)]!];
    expect(ones(now)).toEqual(s % 2 === 0 ? [s / 2] : [(s - 1) / 2, ((s + 1) / 2) % 8].sort());
    expect(ones(now ^ next).length).toBe(1);
  }
});

test('the ticket counter shows every number from 0 to 99, without a leading zero', () => {
  const table = tableOf('ticket-counter');
  for (let n = 0; n < 100; n++) {
    const tens = Math.floor(n / 10);
    const word = table.values[(tens << 4) | (n % 10)]!;
    expect([word & 127, word >> 7]).toEqual([HEX_DIGITS[n % 10], tens === 0 ? 0 : HEX_DIGITS[tens]]);
  }
  expect(table.dontCare.reduce((n, f) => n + (f ? 1 : 0), 0)).toBe(156);
});

test('the adding machine adds', () => {
  const table = tableOf('adding-machine');
  for (let a = 0; a < 16; a++) for (let b = 0; b < 16; b++) expect(table.values[(a << 4) | b]).toBe(a + b);
});

test('the ferry never gives green with red, green without a ramp, opposed drives, or a moving ramp behind an open barrier', () => {
  for (const r of allRows(tableOf('ferry-ramp'))) {
    expect(r.green! + r.red!).toBe(1);
    if (r.green) expect([r.key, r.moored, r.down, r.open, r.up, r.shut, r.alarm]).toEqual([1, 1, 1, 1, 0, 0, 0]);
    expect(r.ramp_down! + r.ramp_up!).toBeLessThan(2);
    expect(r.barrier_open! + r.barrier_shut!).toBeLessThan(2);
    if (r.ramp_down || r.ramp_up) expect([r.shut, r.open, r.bell]).toEqual([1, 0, 1]);
    if (r.ramp_down) expect(r.calm).toBe(1);
    if (r.alarm) expect(r.ramp_down! + r.ramp_up! + r.barrier_open! + r.green!).toBe(0);
  }
});

describe('Hamming (7,4)', () => {
  const code = tableOf('hamming-encoder');
  const decode = tableOf('hamming-decoder');
  const distance = (a: number, b: number) => [...(a ^ b).toString(2)].filter((c) => c === '1').length;

  test('codes 1011 as 0110011', () => {
    // the usual worked example, from memory; first bit first
    expect([...'0110011'].reduce((v, c, i) => v | (Number(c) << i), 0)).toBe(code.values[0b1101]);
  });
  test('keeps any two words three bits apart, seven words at exactly three', () => {
    // minimum distance 3 and weights 1 7 7 1 of 0 3 4 7: Hamming 1950, from memory
    const words = [...code.values];
    for (const [i, a] of words.entries()) for (const b of words.slice(i + 1)) expect(distance(a, b)).toBeGreaterThanOrEqual(3);
    expect([0, 3, 4, 7].map((w) => words.filter((c) => distance(c, 0) === w).length)).toEqual([1, 7, 7, 1]);
  });
  test('fixes every single wrong bit and names its place', () => {
    for (let d = 0; d < 16; d++)
      for (let at = 0; at <= 7; at++) {
        const word = decode.values[code.values[d]! ^ (at === 0 ? 0 : 1 << (at - 1))]!;
        expect([word & 15, word >> 4]).toEqual([d, at]);
      }
  });
});

test('the CRC table reckons check sums that are known', () => {
  // CRC-16, polynomial 0x1021, begun at 0: test vectors in several public repositories, "Standard XMODEM test vectors" among them
  const table = tableOf('crc-nibble');
  const crc = (text: string) => {
    let sum = 0;
    for (const c of text)
      for (const nibble of [c.charCodeAt(0) >> 4, c.charCodeAt(0) & 15]) sum = ((sum << 4) & 0xffff) ^ table.values[(sum >> 12) ^ nibble]!;
    return sum;
  };
  expect([crc(''), crc('A'), crc('123456789')]).toEqual([0, 0x58e5, 0x31c3]);
});

test('excess-3 and BCD as tables print them', () => {
  // our notes on codes, 5.6, from memory: 0 is 0011 and 9 is 1100
  const made = tableOfRules(['A', 'B', 'C', 'D'], ['X0', 'X1', 'X2', 'X3'], 'N = {D, C, B, A}; X3..X0 = excess3(N); dontcare when N > 9');
  const CODES = '0011 0100 0101 0110 0111 1000 1001 1010 1011 1100'.split(' ').map((c) => Number.parseInt(c, 2));
  expect(made.ok && [...made.value.values.slice(0, 10)]).toEqual(CODES);
});
