/** A function is read on one screen: 60 lines at most, functions within it included. */
import { expect, test } from 'vitest';
import { functionsIn } from '../support/functions.ts';
import { readSources } from '../support/sources.ts';

const MOST_LINES = 60;

test('no function is longer than 60 lines', () => {
  const product = readSources('client', 'server', 'shared', 'sim-core').filter((s) => s.text.split('\n').length > MOST_LINES);
  const tooLong = product.flatMap(functionsIn).filter((f) => f.lines > MOST_LINES);
  expect(tooLong.map((f) => `${f.name}, ${f.lines} lines`)).toEqual([]);
});
