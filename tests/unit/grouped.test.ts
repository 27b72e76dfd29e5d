/** Counts for people: one way of writing them from five digits on, in whatever room the sentence is made. */
import { describe, expect, test } from 'vitest';
import { grouped } from '../../shared/grouped.ts';
import { readRawImage, sayComparison, tableOfWords } from '../../sim-core/index.ts';
import { compareImages } from '../../sim-core/logic/compare/compare.ts';

const THIN = '\u202f';

test('a count has a thin space between its thousands from five digits on', () => {
  expect([0, 9, 999, 8192, 9999].map(grouped)).toEqual(['0', '9', '999', '8192', '9999']);
  expect([10_000, 65_536, 123_456, 1_048_576].map(grouped)).toEqual([
    `10${THIN}000`,
    `65${THIN}536`,
    `123${THIN}456`,
    `1${THIN}048${THIN}576`,
  ]);
});

describe('sentences of several rooms write it so', () => {
  const inputs = Array.from({ length: 16 }, (_, i) => `in ${i}`);
  test('a table with too few words', () => {
    const made = tableOfWords(inputs, ['out'], [0, 1]);
    expect(!made.ok && made.failure.says).toContain(`16 inputs make 65${THIN}536 rows, but 2 words`);
  });
  test('a file that is too long for its memory', () => {
    const read = readRawImage(new Uint8Array(65_536), { size: 32_768 });
    expect(!read.ok && read.failure.says).toContain(`The file has 65${THIN}536 bytes, and 32${THIN}768 fit`);
  });
  test('two images that are the same', () => {
    const image = new Uint8Array(65_536).map((_, a) => (a * 37 + (a >> 8)) & 255);
    const whole = { bytes: image, given: new Uint8Array(65_536).fill(255) };
    const compared = compareImages(whole, whole);
    expect(compared.ok && sayComparison(compared.value)[0]).toContain(`in all 65${THIN}536 rows`);
  });
});
