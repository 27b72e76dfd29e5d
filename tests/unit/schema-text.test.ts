/** A misfit of any schema in one sentence: the path, what is there, and what would fit. */
import { Errors } from 'typebox/schema';
import { describe, expect, test } from 'vitest';
import { sayMisfit } from '../../shared/schema-text.ts';

function says(schema: object, document: unknown): string {
  const [fits, misfits] = Errors(schema, document);
  if (fits) throw new Error('this document fits');
  return sayMisfit(document, schema, misfits).says;
}
const object = (properties: object, required: readonly string[] = []) => ({
  type: 'object',
  properties,
  required,
  additionalProperties: false,
});
const level = { anyOf: [{ type: 'number' }, { type: 'string', minLength: 2 }] };

describe('what would fit is named', () => {
  test.each<[string, object, unknown, string]>([
    ['one of several', object({ a: level }, ['a']), {}, 'a is missing: add it, one of a number, text of at least 2 characters.'],
    ['one of several types', object({ a: level }), { a: true }, 'a is true: give a number or text.'],
    ['an object', object({ a: object({}) }), { a: 5 }, 'a is 5: give an object in braces.'],
    [
      'a list',
      object({ a: { type: 'array', maxItems: 1000 } }),
      { a: {} },
      'a is an object in braces: give a list of at most 1000 entries.',
    ],
    [
      'a whole number',
      object({ a: { type: 'integer', minimum: 1, maximum: 9 } }),
      { a: [1, 2] },
      'a is a list of 2: give a whole number from 1 to 9.',
    ],
    ['a constant', object({ a: { const: 'x' } }), { a: null }, 'a is null: give "x".'],
    ['words of its own', object({ a: { type: 'string', description: 'a name' } }), { a: 1 }, 'a is 1: give a name.'],
    ['the whole document', object({}), 7, 'the plan is 7: give an object in braces.'],
  ])('%s', (_, schema, document, sentence) => {
    expect(says(schema, document)).toBe(sentence);
  });
});

test('the only entry that is known is named; where names follow a form, the form is', () => {
  expect(says(object({ a: { type: 'number' } }), { b: 1 })).toBe('b is an entry that plans do not have: take it out; known here are a.');
  const named = { type: 'object', patternProperties: { '^[a-z]$': { type: 'number' } }, additionalProperties: false };
  expect(says(object({ list: named }), { list: { B: 1 } })).toBe(
    'list/B is an entry that plans do not have: names here are of the form [a-z].',
  );
});

test('names with a stroke or a wave in them are found, and the part around a misfit is named', () => {
  expect(says(object({ 'a/b~c': object({ x: { type: 'number' } }) }), { 'a/b~c': { x: 'long' } })).toMatch(/ is "long": give a number\.$/);
  expect(
    says(object({ parts: { type: 'array', items: object({ id: {}, at: { type: 'string' } }, ['at']) } }), { parts: [{ id: 'R1' }] }),
  ).toBe('parts/0/at is missing in R1: add it, text.');
});

test('a long text is cut, and one that just fits is not', () => {
  const a = (text: string) => says(object({ a: { type: 'number' } }), { a: text });
  expect(a('x'.repeat(38))).toBe(`a is "${'x'.repeat(38)}": give a number.`);
  expect(a('x'.repeat(39))).toBe(`a is "${'x'.repeat(36)}…": give a number.`);
});

test('of alternatives the first whose fixed values fit is the one that was meant', () => {
  const kind = (fixed: string, more: object, required: readonly string[]) =>
    object({ kind: { const: fixed }, ...more }, ['kind', ...required]);
  const choice = object({ a: { anyOf: [kind('x', { p: { type: 'number' } }, ['p']), kind('y', { q: { type: 'string' } }, ['q'])] } });
  expect(says(choice, { a: { kind: 'x' } })).toBe('a/p is missing: add it, a number.');
  expect(says(choice, { a: { kind: 'y' } })).toBe('a/q is missing: add it, text.');
  expect(says(choice, { a: { kind: 'z' } })).toBe('a/kind is "z": give one of "x", "y".');
  const two = object({ a: { anyOf: [object({ p: { type: 'number' } }, ['p']), object({ q: { type: 'number' } }, ['q'])] } });
  expect(says(two, { a: {} })).toBe('a/p is missing: add it, a number.');
});
