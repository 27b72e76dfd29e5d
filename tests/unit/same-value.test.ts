/** Two values are the same where they are written alike. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { sameValue } from '../../shared/same-value.ts';

/** Few names and values, so that pairs are often alike, with values that JSON leaves out. */
const { value } = fc.letrec((tie) => ({
  value: fc.oneof(
    { maxDepth: 3 },
    fc.constantFrom(undefined, null, true, 0, -0, 1, '', 'a', [], {}),
    fc.array(tie('value'), { maxLength: 2 }),
    fc.dictionary(fc.constantFrom('a', 'b'), tie('value'), { maxKeys: 2 }),
  ),
}));
const written = (v: unknown) => JSON.stringify(v, (_, x) => (x === undefined ? '(nothing)' : x));
const bare = (v: unknown) => JSON.stringify(v);

test('values of plain data are the same where JSON writes them alike, names in order', () => {
  fc.assert(
    fc.property(value, value, (a, b) => {
      expect(sameValue({ a }, { a: structuredClone(a) })).toBe(true);
      // in a list JSON writes what is undefined as null, which here it is not
      if (written(a) === written(b)) expect(sameValue(a, b)).toBe(true);
      if (bare(a) !== bare(b)) expect(sameValue(a, b)).toBe(false);
    }),
    { numRuns: 2000 },
  );
});

test('what is undefined counts as not there, in a list it does not', () => {
  expect(sameValue({ a: undefined, b: 1 }, { b: 1 })).toBe(true);
  expect(sameValue([undefined], [])).toBe(false);
  expect(sameValue([], {})).toBe(false);
  expect(sameValue(Number.NaN, Number.NaN)).toBe(true);
  expect(sameValue({ a: 1, b: 2 }, { b: 2, a: 1 })).toBe(false);
});
